import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import react from '@vitejs/plugin-react';
import { defineConfig, type Plugin } from 'vite';

/** Writes sw.js: the service worker with the names of all files of this build, and the build's own name. */
function serviceWorker(): Plugin {
  return {
    name: 'legroom-service-worker',
    apply: 'build',
    generateBundle(_, bundle) {
      const worker = readFileSync(new URL('src/editor/shell/worker/sw.js', import.meta.url), 'utf8');
      const files = ['./', ...Object.keys(bundle).sort(), 'icon.svg', 'manifest.webmanifest'];
      const hash = createHash('sha256');
      for (const part of Object.values(bundle)) hash.update(part.type === 'chunk' ? part.code : part.source);
      const build = hash.update(worker).digest('hex').slice(0, 12);
      const source = `const BUILD = ${JSON.stringify(build)};\nconst FILES = ${JSON.stringify(files)};\n${worker}`;
      this.emitFile({ type: 'asset', fileName: 'sw.js', source });
    },
  };
}

export default defineConfig({
  // Works from any folder of any server.
  base: './',
  plugins: [react(), serviceWorker()],
  // Else the PDF writer would be inlined into the worker, asked for or not.
  worker: { format: 'es' },
  build: {
    target: 'es2022',
    rolldownOptions: {
      output: {
        codeSplitting: {
          // What changes with none of our own builds is a file of its own.
          groups: [
            { name: 'react', test: /node_modules[\\/](react|react-dom|scheduler)[\\/]/ },
            { name: 'konva', test: /node_modules[\\/](konva|react-konva|react-reconciler|its-fine)[\\/]/ },
          ],
        },
      },
    },
  },
  preview: { port: 4173, open: false },
});
