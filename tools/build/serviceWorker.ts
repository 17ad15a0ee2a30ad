/** sw.js: the service worker, built by itself once all else is on disk, after a list of what is there. */
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build, type Rolldown } from 'vite';
import type { PrecacheEntry } from 'workbox-precaching';

/** A script by itself, for an address that must not change, and the modules that it is made of. */
export interface BuiltWorker {
  readonly code: string;
  readonly modules: readonly string[];
}

export async function buildWorker(): Promise<BuiltWorker> {
  const made = (await build({
    configFile: false,
    publicDir: false,
    logLevel: 'warn',
    build: {
      write: false,
      target: 'es2022',
      rolldownOptions: {
        input: fileURLToPath(new URL('../../src/editor/shell/worker/sw.ts', import.meta.url)),
        output: { format: 'iife' },
      },
    },
  })) as Rolldown.RolldownOutput;
  const [{ code, moduleIds }] = made.output;
  return { code, modules: moduleIds };
}

/**
 * What the page needs without a network: every file on disk, but the schemas, which are for other programs. The hash lets a
 * browser refuse a file that came cut short, or is of another build.
 */
function filesToKeep(folder: string): PrecacheEntry[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name !== 'sw.js' && !entry.name.endsWith('.schema.json'))
    .map((entry) => join(entry.parentPath, entry.name))
    .sort()
    .map((path) => {
      const hash = createHash('sha256').update(readFileSync(path)).digest('base64');
      return {
        url: relative(folder, path).replaceAll(sep, '/'),
        revision: hash.slice(0, 12),
        integrity: `sha256-${hash}`,
      };
    });
}

/** The worker that keeps every file that is in the folder now. */
export function writeWorker(folder: string, { code }: BuiltWorker): void {
  writeFileSync(join(folder, 'sw.js'), `const PRECACHE=${JSON.stringify(filesToKeep(folder))};\n${code}`);
}
