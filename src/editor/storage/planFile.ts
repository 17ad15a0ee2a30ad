/**
 * The user's own file: picked, dropped, saved. Where the browser has file handles the same file is written again;
 * elsewhere a file is picked by an input and saved as a download.
 */
import { LIMITS } from '../../plan/schema.ts';
import type { PickResult, SaveOptions, SaveResult } from '../state/files.ts';

/** The part of `window` that browsers with file handles have and the type library lacks. */
interface FilePickers {
  showOpenFilePicker?(options?: object): Promise<FileSystemFileHandle[]>;
  showSaveFilePicker?(options?: object): Promise<FileSystemFileHandle>;
}
interface AskingHandle extends FileSystemFileHandle {
  queryPermission?(options: { mode: 'readwrite' }): Promise<PermissionState>;
  requestPermission?(options: { mode: 'readwrite' }): Promise<PermissionState>;
}

const PICKER_TYPES = [{ description: 'Legroom plan', accept: { 'application/json': ['.json'] } }];

const abandoned = (problem: unknown) => (problem as Error)?.name === 'AbortError';

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

/** Lets the user pick a plan. Call it from a click: browsers open a picker only then. */
export async function pickPlanFile(page: Window & FilePickers = window): Promise<PickResult> {
  if (page.showOpenFilePicker === undefined) return pickByInput(page.document);
  try {
    const [handle] = await page.showOpenFilePicker({ types: PICKER_TYPES });
    return await readPicked(await handle.getFile(), handle);
  } catch (problem) {
    if (abandoned(problem)) return { ok: false, sentence: null };
    return pickByInput(page.document);
  }
}

function pickByInput(document: Document): Promise<PickResult> {
  return new Promise((resolve) => {
    const input = document.createElement('input');
    input.type = 'file';
    input.accept = '.json,application/json';
    input.hidden = true;
    // Without a place in the document some browsers never report the choice.
    document.body.append(input);
    const done = (result: PickResult) => {
      input.remove();
      resolve(result);
    };
    input.addEventListener('cancel', () => done({ ok: false, sentence: null }));
    input.addEventListener('change', async () => {
      const file = input.files?.[0];
      done(file === undefined ? { ok: false, sentence: null } : await readPicked(file));
    });
    input.click();
  });
}

/** Saves text as the user's file. A half-written file cannot be left behind: the browser swaps it in when it is whole. */
export async function savePlanFile(
  text: string,
  { fileName, handle, elsewhere = false }: SaveOptions,
  page: Window & FilePickers = window,
): Promise<SaveResult> {
  const known = elsewhere ? null : handle;
  if (known === null && page.showSaveFilePicker === undefined) {
    download(new Blob([text], { type: 'application/json' }), fileName, page.document);
    return { ok: true, name: fileName, handle: null };
  }
  try {
    const target = known ?? (await page.showSaveFilePicker!({ suggestedName: fileName, types: PICKER_TYPES }));
    if (!(await mayWrite(target)))
      return { ok: false, sentence: `This page was not allowed to write “${target.name}”. Nothing was saved.` };
    const stream = await target.createWritable();
    await stream.write(text);
    await stream.close();
    return { ok: true, name: target.name, handle: target };
  } catch (problem) {
    if (abandoned(problem)) return { ok: false, sentence: null };
    return {
      ok: false,
      sentence: `“${known?.name ?? fileName}” could not be written: it may have been moved, or the disk may be full. The plan is still open.`,
    };
  }
}

async function mayWrite(handle: AskingHandle): Promise<boolean> {
  if (handle.queryPermission === undefined || handle.requestPermission === undefined) return true;
  if ((await handle.queryPermission({ mode: 'readwrite' })) === 'granted') return true;
  return (await handle.requestPermission({ mode: 'readwrite' })) === 'granted';
}

/** Hands a file to the browser's downloads. */
export function download(blob: Blob, fileName: string, page: Document = document): void {
  const address = URL.createObjectURL(blob);
  const link = page.createElement('a');
  link.href = address;
  link.download = fileName;
  page.body.append(link);
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
