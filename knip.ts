import type { KnipConfig } from 'knip';

/** What no entry reaches, code that nothing runs but its tests (with --production), and packages without a use. */
export default {
  entry: [
    'src/cli/{measure,sheet,buildFrom}.ts!',
    // Read as text and written into the build (vite.config.ts).
    'src/editor/shell/worker/sw.{js,ts}!',
    'tools/{run.mjs,schema.ts}!',
    'tests/bench/*.bench.ts',
  ],
  project: ['src/**/*.{ts,tsx,js}!', 'tools/*!', 'tools/build/**', 'tests/**/*.ts'],
  // Another program's reading of our files and shapes, which tests load by createRequire.
  // The others stand for packages that are left out (tools/left-out).
  ignoreDependencies: ['clipper2-wasm', 'dxf', 'canvg', 'core-js', 'dompurify', 'html2canvas'],
  // A type that an exported function speaks of has a name to those who call it. What a test alone imports may still run in its own file.
  ignoreExportsUsedInFile: process.argv.includes('--production') ? true : { interface: true, type: true },
} satisfies KnipConfig;
