/**
 * What the npm scripts call: `node tools/run.mjs COMMAND [arguments]`. Installs what the command needs, then runs it.
 * Exit code: the command's own; 1 with a sentence when something could not be installed.
 */
import { readdirSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { findChromium, installPackages, run } from './install.mjs';

const root = dirname(dirname(fileURLToPath(import.meta.url)));
const [command, ...args] = process.argv.slice(2);

/** A program that a package brings, run with this Node: [script inside node_modules, ...arguments]. */
const node = (script, ...rest) => run(process.execPath, [join(root, 'node_modules', script), ...rest], { cwd: root });
const vite = (...rest) => node('vite/bin/vite.js', ...rest);
const vitest = (...rest) => node('vitest/vitest.mjs', ...rest);
/** A script of ours in TypeScript, run where the user stands, so that relative file names mean what they say. */
const script = (path, ...rest) =>
  run(process.execPath, ['--import', import.meta.resolve('tsx'), join(root, path), ...rest], {
    cwd: process.env.INIT_CWD ?? process.cwd(),
  });

/** Runs the steps until one fails. */
const inTurn = (...steps) => {
  for (const step of steps) {
    const code = step();
    if (code !== 0) return code;
  }
  return 0;
};

const benches = readdirSync(join(root, 'tests/bench')).filter((name) => name.endsWith('.bench.ts'));
const types = () => node('typescript/bin/tsc', '--noEmit', '-p', '.');
const lint = () => node('@biomejs/biome/bin/biome', 'ci', '--error-on-warnings', '.');
/** Nothing dead: what no entry reaches, and what only tests run. */
const unused = (...flags) => node('knip/bin/knip.js', '--no-progress', ...flags);
const checks = [types, lint, () => unused(), () => unused('--production')];

const commands = {
  start: () =>
    inTurn(
      () => vite('build'),
      () => vite('preview', ...args),
    ),
  dev: () => vite(...args),
  check: () => inTurn(...checks),
  test: () => {
    process.env.CHROMIUM_PATH = findChromium();
    return args.length > 0 ? vitest('run', ...args) : inTurn(...checks, () => vitest('run'));
  },
  /** Every random case of every law (tests/fixtures/seeds.ts). */
  soak: () => {
    process.env.SOAK = '1';
    return vitest('run', '--project', 'unit', '--project', 'outside', ...args);
  },
  bench: () => {
    const wanted = benches.filter((name) => args.length === 0 || args.some((part) => name.includes(part)));
    return inTurn(...wanted.map((name) => () => script(join('tests/bench', name))));
  },
  measure: () => script('src/cli/measure.ts', ...args),
  sheet: () => script('src/cli/sheet.ts', ...args),
  'build-from': () => script('src/cli/buildFrom.ts', ...args),
  schema: () => script('tools/schema.ts', ...args),
};

if (!Object.hasOwn(commands, command)) {
  console.error(`There is no command "${command}". The commands are: ${Object.keys(commands).join(', ')}.`);
  process.exit(2);
}
try {
  installPackages(root);
  process.exitCode = commands[command]();
} catch (problem) {
  console.error(problem.message);
  process.exitCode = 1;
}
