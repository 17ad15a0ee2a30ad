/** Modules and which way imports go (DEVELOPERS.md): read from the import lines of every source file. */
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve, sep } from 'node:path';
import { expect, test } from 'vitest';

const SRC = resolve(import.meta.dirname, '../src');

/** From the ground up: each module may import any before it. */
const ORDER = [
  'keep',
  'gather',
  'units',
  'geometry',
  'gear',
  'plan',
  'drummer',
  'layout',
  'checks',
  'solve',
  'lists',
  'words',
  'drawing',
  'sheets',
] as const;

/** What a module does without although it stands below it. `units` is the leaf src/units.ts. */
const WITHOUT: Readonly<Record<string, readonly string[]>> = {
  geometry: ['units'],
  lists: ['solve'],
  drawing: ['solve'],
  sheets: ['solve'],
};

const INSIDE_EDITOR = ['state', 'storage', 'canvas', 'panels', 'shell'].map((part) => `editor/${part}`);

/** For each module, those it may import besides itself. The editor's parts know its state; only the shell knows them all. */
const MAY_IMPORT: Readonly<Record<string, readonly string[]>> = {
  ...Object.fromEntries(
    ORDER.map((name, k) => [name, ORDER.slice(0, k).filter((other) => !(WITHOUT[name] ?? []).includes(other))]),
  ),
  cli: ORDER,
  'editor/state': ORDER,
  'editor/storage': [...ORDER, 'editor/state'],
  'editor/canvas': [...ORDER, 'editor/state'],
  'editor/panels': [...ORDER, 'editor/state'],
  'editor/shell': [...ORDER, ...INSIDE_EDITOR],
};

/** Packages that only some modules may know. */
const ONLY_IN: [RegExp, readonly string[]][] = [
  [/^(react|react-dom|react-aria-components|lucide-react|zustand)(\/|$)/, INSIDE_EDITOR],
  [/^(konva|react-konva)(\/|$)/, ['editor/canvas']],
  [/^idb(\/|$)/, ['editor/storage']],
  [/^jspdf/, ['sheets']],
  [/^@resvg/, ['sheets', 'editor/panels']],
  [/^node:/, ['cli']],
  [/^robust-predicates/, ['geometry']],
];

const files = readdirSync(SRC, { recursive: true, encoding: 'utf8' })
  .filter((name) => /\.tsx?$/.test(name))
  .map((name) => join(SRC, name));

function moduleOf(path: string): string {
  const [first, second] = relative(SRC, path).split(sep);
  return first === 'editor' ? `editor/${second}` : first.replace(/\.ts$/, '');
}

function importsOf(file: string): string[] {
  const text = readFileSync(file, 'utf8');
  return [
    ...text.matchAll(
      /(?:^|\n)\s*(?:import|export)[^'"`;]*?from\s*['"]([^'"]+)['"]|import\(\s*['"]([^'"]+)['"]|(?:^|\n)import\s*['"]([^'"]+)['"]/g,
    ),
  ].map((match) => match[1] ?? match[2] ?? match[3]);
}

const sourcesOf = (file: string): string[] =>
  importsOf(file)
    .filter((target) => target.startsWith('.'))
    .map((target) => resolve(dirname(file), target))
    .filter((target) => target.startsWith(SRC));

test('there are source files to check', () => expect(files.length).toBeGreaterThan(30));

test.each(files.map((file) => [relative(SRC, file), file]))('%s imports only from the modules below it', (_, file) => {
  const own = moduleOf(file);
  expect(Object.keys(MAY_IMPORT), `src/${own} is no module: add it to DEVELOPERS.md and here`).toContain(own);
  for (const target of sourcesOf(file)) {
    const other = moduleOf(target);
    if (other !== own) expect(MAY_IMPORT[own], `${relative(SRC, target)} from ${own}`).toContain(other);
  }
  for (const target of importsOf(file))
    for (const [pattern, modules] of ONLY_IN)
      if (pattern.test(target)) expect(modules, `${target} belongs elsewhere`).toContain(own);
});

test('no file imports itself, however long the way round', () => {
  const next = new Map(files.map((file) => [file, sourcesOf(file).filter((target) => /\.tsx?$/.test(target))]));
  const done = new Set<string>();
  const circles: string[] = [];
  const walk = (file: string, way: readonly string[]): void => {
    const at = way.indexOf(file);
    if (at >= 0) {
      circles.push([...way.slice(at), file].map((each) => relative(SRC, each)).join(' -> '));
      return;
    }
    if (done.has(file)) return;
    for (const target of next.get(file) ?? []) walk(target, [...way, file]);
    done.add(file);
  };
  for (const file of files) walk(file, []);
  expect(circles).toEqual([]);
});
