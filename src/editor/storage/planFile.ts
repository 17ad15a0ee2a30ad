/**
 * The user's own file: picked, dropped, saved. Where the browser has file handles the same file is written again;
 * elsewhere a file is picked by an input and saved as a download (browser-fs-access knows which).
 *
 * A picker opens only while the browser still counts the user's press, a few seconds at most: pick and save are called
 * in the press itself, and what must be made first is handed over by `download`, which needs no press.
 */
import { fileOpen, fileSave } from 'browser-fs-access';
import { LIMITS } from '../../plan/schema.ts';
import type { PickResult, SaveOptions, SaveResult } from '../state/files.ts';

/** Asking for leave, which the type library lacks. */
interface AskingHandle extends FileSystemFileHandle {
  requestPermission?(options: { mode: 'readwrite' }): Promise<PermissionState>;
}

const JSON_FILE = { description: 'Legroom plan', extensions: ['.json'] };

/** What a browser answers to a press that is too long ago: a page may ask, and it says no. */
const NOT_LET = 'The browser did not let this page choose a file.';

const isA = (name: string, problem: unknown) => (problem as Error)?.name === name;

/** Reads a picked or dropped file. The size is looked at first: a film dropped by mistake is not read. */
export async function readPicked(file: File, handle: FileSystemFileHandle | null = null): Promise<PickResult> {
  if (file.size > LIMITS.bytes) {
    const megabytes = (bytes: number) => `${(bytes / 1e6).toFixed(1)} MB`;
    return {
      ok: false,
      sentence: `“${file.name}” is ${megabytes(file.size)} long, and a plan has at most ${megabytes(LIMITS.bytes)}: it is some other file.`,
    };
  }
  try {
    const bytes = await file.arrayBuffer();
    const text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
    return { ok: true, file: { name: file.name, text, handle } };
  } catch (problem) {
    const sentence =
      problem instanceof TypeError
        ? `“${file.name}” is not a text file, so it is no plan.`
        : `“${file.name}” could not be read: it may have been moved, or this page may not open it.`;
    return { ok: false, sentence };
  }
}

/** Lets the user pick a plan. Call it in the press itself. */
export async function pickPlanFile(): Promise<PickResult> {
  try {
    const file = await fileOpen({ ...JSON_FILE, mimeTypes: ['application/json'] });
    return await readPicked(file, file.handle ?? null);
  } catch (problem) {
    if (isA('AbortError', problem)) return { ok: false, sentence: null };
    const sentence = isA('NotFoundError', problem)
      ? 'That file is no longer there.'
      : `${NOT_LET} Try once more, or drop the file onto the page.`;
    return { ok: false, sentence };
  }
}

/**
 * Saves text as the user's file. Call it in the press itself. A half-written file cannot be left behind: the browser swaps
 * it in when it is whole.
 */
export async function savePlanFile(
  text: string,
  { fileName, handle, elsewhere = false, isExpected }: SaveOptions,
): Promise<SaveResult> {
  const known = elsewhere ? null : (handle as AskingHandle | null);
  const forbidden = (name: string): SaveResult => ({
    ok: false,
    sentence: `This page was not allowed to write “${name}”. Nothing was saved.`,
  });
  try {
    // A file of an earlier visit may not even be looked at before the user has said so again.
    const leave = await known?.requestPermission?.({ mode: 'readwrite' });
    if (known && leave !== undefined && leave !== 'granted') return forbidden(known.name);
    if (known && isExpected) {
      const found = await (await known.getFile()).text();
      if (!isExpected(found))
        return { ok: false, sentence: null, changed: { name: known.name, text: found, handle: known } };
    }
    const blob = new Blob([text], { type: 'application/json' });
    // A file that is gone is told, not swapped for another that the user is asked to choose.
    const target = await fileSave(blob, { ...JSON_FILE, fileName }, known, true);
    return { ok: true, name: target?.name ?? fileName, handle: target };
  } catch (problem) {
    if (isA('AbortError', problem)) return { ok: false, sentence: null };
    if (isA('SecurityError', problem)) return { ok: false, sentence: `${NOT_LET} Nothing was saved: try once more.` };
    const name = known?.name ?? fileName;
    if (isA('NotAllowedError', problem)) return forbidden(name);
    return {
      ok: false,
      sentence: `“${name}” could not be written: it may have been moved, or the disk may be full. The plan is still open.`,
    };
  }
}

/** Hands a file to the browser's downloads, which takes no press: sheets are made first. */
export function download(blob: Blob, fileName: string): void {
  const address = URL.createObjectURL(blob);
  const link = document.createElement('a');
  link.href = address;
  link.download = fileName;
  document.body.append(link);
  link.click();
  link.remove();
  // The download has its own hold on the data by the next turn, but not in every browser within this one.
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}

/** The file that was dropped, with its handle where the browser gives one; null when what was dropped is no file. */
export async function droppedFile(transfer: DataTransfer): Promise<PickResult | null> {
  const item = [...transfer.items].find(({ kind }) => kind === 'file') as
    | (DataTransferItem & { getAsFileSystemHandle?(): Promise<FileSystemHandle | null> })
    | undefined;
  // Both must be asked for in the drop's own turn: afterwards the items are empty.
  const file = item?.getAsFile() ?? null;
  const asked = item?.getAsFileSystemHandle?.();
  if (file === null) return null;
  const handle = await asked?.catch(() => null);
  return readPicked(file, handle?.kind === 'file' ? (handle as FileSystemFileHandle) : null);
}
