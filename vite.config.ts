import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import { build, defineConfig, type Plugin } from 'vite';
import type { PrecacheEntry } from 'workbox-precaching';

/** What the page needs without a network: every file on disk, but the schemas, which are for other programs. */
function filesToKeep(folder: string): PrecacheEntry[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name !== 'sw.js' && !entry.name.endsWith('.schema.json'))
    .map((entry) => join(entry.parentPath, entry.name))
    .sort()
    .map((path) => ({
      url: relative(folder, path).replaceAll(sep, '/'),
      revision: createHash('sha256').update(readFileSync(path)).digest('hex').slice(0, 12),
    }));
}

/** Writes sw.js: the service worker with the names and revisions of all files that this build left on disk. */
function serviceWorker(): Plugin {
  return {
    name: 'legroom-service-worker',
    apply: 'build',
    async writeBundle({ dir }) {
      await build({
        configFile: false,
        publicDir: false,
        logLevel: 'warn',
        define: { PRECACHE: JSON.stringify(filesToKeep(dir!)) },
        build: {
          outDir: dir,
          emptyOutDir: false,
          target: 'es2022',
          rolldownOptions: {
            input: fileURLToPath(new URL('src/editor/shell/worker/sw.ts', import.meta.url)),
            output: { format: 'iife', entryFileNames: 'sw.js' },
          },
        },
      });
    },
  };
}

/**
 * The page is in English: what the parts of react-aria say in 33 other languages would be read out amid English, and weighs 5 kB
 * gzipped of the first visit. A dictionary without a language falls back on English by itself.
 */
function onlyEnglish(): Plugin {
  return {
    name: 'legroom-only-english',
    transform: {
      filter: { id: /node_modules.*react-(aria|stately).*intlStrings\.mjs$/ },
      handler(code) {
        const english = /from "(.*en-US\.mjs)"/.exec(code)?.[1];
        if (english === undefined) this.error('This dictionary of react-aria has no English in it.');
        return { code: `import english from '${english}';\nexport default { 'en-US': english };`, map: null };
      },
    },
  };
}

export default defineConfig({
  // Works from any folder of any server.
  base: './',
  plugins: [react(), onlyEnglish(), serviceWorker()],
  // Else the PDF writer would be inlined into the worker, asked for or not.
  worker: { format: 'es' },
  build: {
    target: 'es2022',
    // Browsers of this year preload by themselves.
    modulePreload: { polyfill: false },
    // A browser test weighs the first visit; one file of it is larger than the bundler's own limit, on purpose.
    chunkSizeWarningLimit: 750,
    rolldownOptions: {
      output: {
        codeSplitting: {
          // What changes with none of our own builds is a file of its own.
          groups: [
            { name: 'react', test: /node_modules[\\/](react|react-dom|scheduler)[\\/]/ },
            { name: 'konva', test: /node_modules[\\/](konva|react-konva|react-reconciler|its-fine)[\\/]/ },
            // All else that the first drawing needs comes as one: in a crowd of small files it weighs more.
            { name: 'first', tags: ['$initial'] },
          ],
        },
      },
    },
  },
  preview: { port: 4173, open: false },
});
