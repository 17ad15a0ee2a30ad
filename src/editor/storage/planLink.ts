/**
 * A plan inside a link: behind the "#", which no browser sends to a server. `#plan=` then a letter for how it is packed (d: deflate,
 * p: plain), a check of the text in base 36, a dot, and the bytes in base64url. The text is the plan's file without its spaces:
 * read again and written, it is the same file byte for byte.
 */
import { LIMITS } from '../../plan/schema.ts';
import { PLAN_MARK } from '../state/files.ts';
import { gather } from './packed.ts';

/**
 * The longest link that is handed out, characters. Samples have 1,600 to 4,300; browsers take far longer ones, mail and chat
 * programs do not (common practice, no source).
 */
export const MOST_LINK = 30_000;
/** Above this some programs cut a link, characters (common practice, no source). */
export const LONG_LINK = 8_000;

export type ReadLink = { readonly ok: true; readonly text: string } | { readonly ok: false; readonly sentence: string };

const DAMAGED = 'The link is damaged or cut short: ask for it once more, or for the plan’s file.';
const TOO_LARGE = 'What the link holds is larger than any plan: it was not opened.';
const CANNOT_UNPACK = 'This browser cannot unpack the plan in a link: ask for the plan’s file.';

/** FNV-1a of 32 bits, in base 36: one changed byte always changes it. Source: draft-eastlake-fnv, constants of 32 bits. */
function checkOf(bytes: Uint8Array): string {
  let hash = 0x811c9dc5;
  for (const byte of bytes) hash = Math.imul(hash ^ byte, 0x01000193);
  return (hash >>> 0).toString(36);
}

function toBase64Url(bytes: Uint8Array): string {
  let binary = '';
  for (const byte of bytes) binary += String.fromCharCode(byte);
  return btoa(binary).replaceAll('+', '-').replaceAll('/', '_').replaceAll('=', '');
}

/** Throws: when it is not base64url. */
const fromBase64Url = (text: string): Uint8Array<ArrayBuffer> =>
  Uint8Array.from(atob(text.replaceAll('-', '+').replaceAll('_', '/')), (char) => char.charCodeAt(0));

const through = (bytes: Uint8Array<ArrayBuffer>, work: CompressionStream | DecompressionStream) =>
  new Blob([bytes]).stream().pipeThrough(work);

/** What goes behind a page's address. `text`: a plan as it is written to a file. */
export async function linkOf(text: string): Promise<string> {
  const bytes = new TextEncoder().encode(JSON.stringify(JSON.parse(text)));
  const packed =
    typeof CompressionStream === 'undefined'
      ? null
      : await gather(through(bytes, new CompressionStream('deflate-raw')), Number.POSITIVE_INFINITY);
  return `${PLAN_MARK}${packed ? 'd' : 'p'}${checkOf(bytes)}.${toBase64Url(packed ?? bytes)}`;
}

async function unpacked(letter: string, packed: string): Promise<Uint8Array | 'too large'> {
  const bytes = fromBase64Url(packed);
  const whole =
    letter === 'p' ? bytes : await gather(through(bytes, new DecompressionStream('deflate-raw')), LIMITS.bytes);
  return whole ?? 'too large';
}

/** The text of the plan in a link: what the reader of files is given. What a program put behind the link's end is no part of it. */
export async function readLink(fragment: string): Promise<ReadLink> {
  const refused = (sentence: string): ReadLink => ({ ok: false, sentence });
  const found = /^#plan=([a-z])([0-9a-z]{1,7})\.([\w-]+)/.exec(fragment);
  if (found === null) return refused(DAMAGED);
  const [, letter, check, packed] = found;
  if (letter !== 'd' && letter !== 'p')
    return refused('The link was made by a newer version of Legroom: reload the page, and open it once more.');
  // Nothing that long is ours, packed or not.
  if (packed.length > 2 * LIMITS.bytes) return refused(TOO_LARGE);
  if (letter === 'd' && typeof DecompressionStream === 'undefined') return refused(CANNOT_UNPACK);
  try {
    const bytes = await unpacked(letter, packed);
    if (bytes === 'too large') return refused(TOO_LARGE);
    if (checkOf(bytes) !== check) return refused(DAMAGED);
    return { ok: true, text: new TextDecoder('utf-8', { fatal: true }).decode(bytes) };
  } catch {
    return refused(DAMAGED);
  }
}
