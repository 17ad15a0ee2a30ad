/**
 * What the page asks of files and of the browser's own storage. `storage/` answers it; panels know these types alone.
 */

export const PLAN_SUFFIX = '.legroom.json';

/** What a link to a plan has behind the page's address. */
export const PLAN_MARK = '#plan=';

/** A file as it was read. The text is not understood yet: plan/read decides that. */
export interface PickedFile {
  readonly name: string;
  readonly text: string;
  readonly handle: FileSystemFileHandle | null;
}

export type PickResult =
  | { readonly ok: true; readonly file: PickedFile }
  /** `sentence` null: the user changed their mind. */
  | { readonly ok: false; readonly sentence: string | null };

/** A plan's name as a file name that every system accepts. */
export function planFileName(planName: string): string {
  const safe = planName
    .normalize('NFC')
    // Control characters and what some file system reserves.
    .replace(/[\p{Cc}<>:"/\\|?*]+/gu, ' ')
    .replace(/\s+/g, ' ')
    .trim()
    .replace(/^\.+|[. ]+$/g, '')
    .slice(0, 80)
    .trim();
  return `${safe || 'plan'}${PLAN_SUFFIX}`;
}

export type SaveResult =
  | { readonly ok: true; readonly name: string; readonly handle: FileSystemFileHandle | null }
  /** `changed`: another program wrote the file, and nothing was saved. */
  | { readonly ok: false; readonly sentence: string | null; readonly changed?: PickedFile };

export interface SaveOptions {
  readonly fileName: string;
  /** The file it came from: written again without asking where. */
  readonly handle: FileSystemFileHandle | null;
  /** Ask where even if there is a handle. */
  readonly elsewhere?: boolean;
  /** Whether the file may be written over as it is found; left out: always. */
  readonly isExpected?: (text: string) => boolean;
}

export interface StockStore {
  read(): Promise<string | null>;
  keep(text: string): Promise<void>;
}

/** Files as panels reach them. */
export interface Files {
  pick(): Promise<PickResult>;
  save(text: string, options: SaveOptions): Promise<SaveResult>;
  download(blob: Blob, fileName: string): void;
  readonly stock: StockStore;
}
