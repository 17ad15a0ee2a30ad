/** Builds the page once and serves it on a free port for the browser tests, as `npm start` does. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build, type Plugin, type PreviewServer, preview } from 'vite';
import type { TestProject } from 'vitest/node';

declare module 'vitest' {
  export interface ProvidedContext {
    address: string;
    /** The folder of the built page. */
    built: string;
    /** The packages that any bundle of it has something of. */
    bundled: string[];
  }
}

const bundled = new Set<string>();
/** Reads the bundles for itself: what the build says of them is what is tested. */
const readsBundles: Plugin = {
  name: 'reads-bundles',
  generateBundle(_, bundle) {
    for (const file of Object.values(bundle)) {
      const sources = file.type === 'asset' ? file.originalFileNames : Object.keys(file.modules);
      for (const source of sources) {
        const name = source.split('node_modules/').at(-1)!;
        if (name !== source)
          bundled.add(
            name
              .split('/')
              .slice(0, name.startsWith('@') ? 2 : 1)
              .join('/'),
          );
      }
    }
  },
};

let server: PreviewServer;
/** In a folder of its own: a page that somebody builds meanwhile must not change under the tests. */
const outDir = mkdtempSync(join(tmpdir(), 'legroom-page-'));

export async function setup(project: TestProject): Promise<void> {
  // The very build that the user gets: a test runner's own mode would put React's development half into it.
  const { NODE_ENV } = process.env;
  process.env.NODE_ENV = 'production';
  await build({
    logLevel: 'warn',
    build: { outDir, emptyOutDir: true },
    plugins: [readsBundles],
    worker: { plugins: () => [readsBundles] },
  });
  process.env.NODE_ENV = NODE_ENV;
  server = await preview({
    build: { outDir },
    // What is kept is not compiled anew for every test.
    preview: {
      port: 0,
      host: '127.0.0.1',
      allowedHosts: ['legroom.test'],
      open: false,
      headers: { 'Cache-Control': 'max-age=3600' },
    },
    logLevel: 'warn',
  });
  const at = server.httpServer.address();
  if (at === null || typeof at === 'string') throw new Error('The page could not be served for the browser tests.');
  project.provide('built', outDir);
  project.provide('bundled', [...bundled]);
  project.provide('address', `http://127.0.0.1:${at.port}/`);
}

export async function teardown(): Promise<void> {
  await server.close();
  rmSync(outDir, { recursive: true });
}
