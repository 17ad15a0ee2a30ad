/** What a build of the page gets besides what Vite writes: its policy, the licences, the service worker. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Plugin } from 'vite';
import { noticesOf } from './notices.ts';
import { POLICY } from './policy.ts';
import { buildWorker, writeWorker } from './serviceWorker.ts';

/** Collects the modules of every bundle that it is a plugin of: the page's, and each worker's. */
function modulesOf(modules: Set<string>): Plugin {
  return {
    name: 'legroom-modules',
    apply: 'build',
    generateBundle(_, bundle) {
      for (const file of Object.values(bundle)) {
        const sources = file.type === 'chunk' ? file.moduleIds : file.originalFileNames;
        for (const source of sources) modules.add(source);
      }
    },
  };
}

export interface BuildPlugins {
  readonly page: readonly Plugin[];
  /** For the bundles of workers, which are made apart. */
  readonly worker: readonly Plugin[];
}

export function legroomBuild(): BuildPlugins {
  const modules = new Set<string>();
  const licence = fileURLToPath(new URL('../../LICENSE', import.meta.url));
  const finish: Plugin = {
    name: 'legroom-build',
    apply: 'build',
    transformIndexHtml: () => [
      { tag: 'meta', attrs: { 'http-equiv': 'Content-Security-Policy', content: POLICY }, injectTo: 'head-prepend' },
    ],
    async writeBundle({ dir }) {
      const worker = await buildWorker();
      const notices = noticesOf(readFileSync(licence, 'utf8'), [...modules, ...worker.modules]);
      writeFileSync(join(dir!, 'licences.txt'), notices);
      writeWorker(dir!, worker);
    },
  };
  return { page: [modulesOf(modules), finish], worker: [modulesOf(modules)] };
}
