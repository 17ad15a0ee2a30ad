/** The style sheets of the page: a class is styled in one file, and every class is used. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';

const ROOT = join(import.meta.dirname, '../../../src/editor');
const files = readdirSync(ROOT, { recursive: true, encoding: 'utf8' });
const read = (name: string) => readFileSync(join(ROOT, name), 'utf8');

/** Splits at a separator where it stands outside of brackets. */
function split(text: string, separator: RegExp): string[] {
  const parts = [''];
  let depth = 0;
  for (const letter of text) {
    if (/[([]/.test(letter)) depth++;
    if (/[)\]]/.test(letter)) depth--;
    if (depth === 0 && separator.test(letter)) parts.push('');
    else parts[parts.length - 1] += letter;
  }
  return parts.map((part) => part.trim()).filter((part) => part !== '');
}

const classesOf = (compound: string) => [...compound.matchAll(/\.([a-z][\w-]*)/g)].map(([, name]) => name);
/** Conditions on what is around or inside style nothing. */
const bare = (selector: string) => selector.replace(/:(?:has|not)\((?:[^()]|\([^()]*\))*\)/g, '');
const selectorsOf = (css: string) =>
  [...css.replace(/\/\*[\s\S]*?\*\//g, '').matchAll(/(?:^|[{};])\s*([^{};@]+)\{/g)].flatMap(([, list]) =>
    split(list, /,/),
  );

/** The classes that a selector styles: those of its last part that has any. */
function styledBy(selector: string): string[] {
  const parts = split(bare(selector), /[\s>+~]/);
  return parts.map(classesOf).findLast((names) => names.length > 0) ?? [];
}

const sheets = files
  .filter((name) => name.endsWith('.css'))
  .map((name) => ({ name, selectors: selectorsOf(read(name)) }));

test('what a selector styles', () => {
  expect(styledBy('.a .b > svg')).toEqual(['b']);
  expect(styledBy('.a:is(.b, .c)[data-x]')).toEqual(['a', 'b', 'c']);
  expect(styledBy('.a:has(> .b)')).toEqual(['a']);
  expect(selectorsOf('/* .x {} */ @media (a: b) { .c, .d:is(.e, .f) { g: h; } .i { j: k } }')).toEqual([
    '.c',
    '.d:is(.e, .f)',
    '.i',
  ]);
});

test('a class is styled in one file', () => {
  const homes = new Map<string, Set<string>>();
  for (const { name, selectors } of sheets)
    for (const one of selectors.flatMap(styledBy)) homes.set(one, (homes.get(one) ?? new Set()).add(name));
  expect(homes.size).toBeGreaterThan(150);
  expect([...homes].filter(([, names]) => names.size > 1).map(([one, names]) => [one, ...names])).toEqual([]);
});

/** Written by the icons themselves. */
const OF_A_LIBRARY = new Set(['lucide']);

test('every class that is styled is used', () => {
  const scripts = files.filter((name) => name.endsWith('.tsx') || name.endsWith('.ts')).map(read);
  const index = readFileSync(new URL('../../../index.html', import.meta.url), 'utf8');
  const code = [...scripts, index].join('\n');
  // Some names are put together: `state-${state}`.
  const used = new Set(code.match(/[a-z][\w-]*/g));
  const begun = [...code.matchAll(/([a-z][\w-]*-)\$\{/g)].map(([, start]) => start);
  const styled = new Set(sheets.flatMap(({ selectors }) => selectors.flatMap(classesOf)));
  const idle = [...styled].filter(
    (one) => !OF_A_LIBRARY.has(one) && !used.has(one) && !begun.some((start) => one.startsWith(start)),
  );
  expect(idle).toEqual([]);
});
