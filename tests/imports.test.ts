/** Rooms and which way imports go (DEVELOPERS.md): read from the import lines of every source file. */
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve, sep } from 'node:path';
import { expect, test } from 'vitest';

const SRC = resolve(import.meta.dirname, '../src');

/** For each room, the rooms it may import besides itself. `units` is the leaf src/units.ts. */
const MAY_IMPORT: Record<string, readonly string[]> = {
  units: [],
  geometry: [],
  gear: ['units', 'geometry'],
  plan: ['units', 'geometry', 'gear'],
  layout: ['units', 'geometry', 'gear', 'plan'],
  checks: ['units', 'geometry', 'gear', 'plan', 'layout'],
  solve: ['units', 'geometry', 'gear', 'plan', 'layout', 'checks'],
  drawing: ['units', 'geometry', 'gear', 'plan', 'layout', 'checks'],
  sheets: ['units', 'geometry', 'gear', 'plan', 'layout', 'checks', 'drawing'],
  editor: ['units', 'geometry', 'gear', 'plan', 'layout', 'checks', 'solve', 'drawing', 'sheets'],
  cli: ['units', 'geometry', 'gear', 'plan', 'layout', 'checks', 'solve', 'drawing', 'sheets'],
};

/** Packages that only some rooms may know. */
const ONLY_IN: [RegExp, readonly string[]][] = [
  [/^(react|react-dom|konva|react-aria-components|lucide-react|zustand|idb)(\/|$)/, ['editor']],
  [/^jspdf/, ['sheets']],
  [/^@resvg/, ['sheets', 'editor']],
  [/^node:/, ['cli']],
  [/^robust-predicates/, ['geometry']],
];

const files = readdirSync(SRC, { recursive: true, encoding: 'utf8' })
  .filter((name) => /\.tsx?$/.test(name))
  .map((name) => join(SRC, name));

const roomOf = (path: string) => relative(SRC, path).split(sep)[0].replace(/\.ts$/, '');

function importsOf(file: string): string[] {
  const text = readFileSync(file, 'utf8');
  return [
    ...text.matchAll(
      /(?:^|\n)\s*(?:import|export)[^'"`;]*?from\s*['"]([^'"]+)['"]|import\(\s*['"]([^'"]+)['"]|(?:^|\n)import\s*['"]([^'"]+)['"]/g,
    ),
  ].map((match) => match[1] ?? match[2] ?? match[3]);
}

test('there are source files to check', () => expect(files.length).toBeGreaterThan(30));

test.each(files.map((file) => [relative(SRC, file), file]))('%s imports only from the rooms below it', (_, file) => {
  const room = roomOf(file);
  expect(Object.keys(MAY_IMPORT), `src/${room} is no room: add it to DEVELOPERS.md and here`).toContain(room);
  for (const target of importsOf(file)) {
    if (target.startsWith('.')) {
      const to = resolve(dirname(file), target);
      if (!to.startsWith(SRC)) continue;
      const other = roomOf(to);
      if (other !== room) expect(MAY_IMPORT[room], `${target} from ${room}`).toContain(other);
    } else {
      for (const [pattern, rooms] of ONLY_IN)
        if (pattern.test(target)) expect(rooms, `${target} belongs elsewhere`).toContain(room);
    }
  }
});
