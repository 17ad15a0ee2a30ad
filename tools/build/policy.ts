/**
 * What the built page may do: run its own scripts, workers and styles, and speak with its own server. Nothing that gets into it
 * as text becomes a script, and nothing in it can send a plan anywhere.
 */
import { createHash } from 'node:crypto';

/** The two style elements that the widgets' library puts into the page, word for word: these and no other may be there. */
export const LIBRARY_STYLES = [
  '@layer {\n  [data-react-aria-pressable] {\n    touch-action: pan-x pan-y pinch-zoom;\n  }\n}',
  '@layer {\n  * {\n    overscroll-behavior: contain;\n  }\n}',
];

const hashOf = (text: string) => `'sha256-${createHash('sha256').update(text).digest('base64')}'`;

const RULES = {
  'default-src': "'none'",
  // The part that paints PNG is WebAssembly.
  'script-src': "'self' 'wasm-unsafe-eval'",
  'worker-src': "'self'",
  'style-src': ["'self'", ...LIBRARY_STYLES.map(hashOf)].join(' '),
  'img-src': "'self' data: blob:",
  'font-src': "'self'",
  'connect-src': "'self'",
  'manifest-src': "'self'",
  'base-uri': "'none'",
  'form-action': "'none'",
} as const;

export const POLICY = Object.entries(RULES)
  .map(([what, from]) => `${what} ${from}`)
  .join('; ');
