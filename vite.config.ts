import react from '@vitejs/plugin-react';
import { defineConfig, type Plugin } from 'vite';
import { legroomBuild } from './tools/build/legroomBuild.ts';
import { POLICY } from './tools/build/policy.ts';

const ours = legroomBuild();

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
  plugins: [react(), onlyEnglish(), ...ours.page],
  worker: {
    // Else the PDF writer would be inlined into the worker, asked for or not.
    format: 'es',
    plugins: () => [...ours.worker],
    // What the PDF writer would load for pages in HTML and SVG, which our sheets never are.
    rolldownOptions: { external: ['html2canvas', 'canvg', 'dompurify'] },
  },
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
  // The page brings its policy along; as a header it also holds for the workers.
  preview: { port: 4173, open: false, headers: { 'Content-Security-Policy': POLICY } },
});
