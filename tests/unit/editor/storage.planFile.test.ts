/** Files: names that every system takes, strangers' files refused in words, saving again to the same file. */
import { expect, test } from 'vitest';
import { planFileName } from '../../../src/editor/state/files.ts';
import { readPicked, savePlanFile } from '../../../src/editor/storage/planFile.ts';
import { LIMITS } from '../../../src/plan/schema.ts';

test.each([
  ['plain', 'Club kit', 'Club kit.legroom.json'],
  ['reserved characters', 'a/b\\c:d*e?"<f>|g', 'a b c d e f g.legroom.json'],
  ['other scripts stay', 'Ударная установка', 'Ударная установка.legroom.json'],
  ['dots at the ends', '..hidden. ', 'hidden.legroom.json'],
  ['line breaks', 'two\nlines', 'two lines.legroom.json'],
  ['nothing left', '???', 'plan.legroom.json'],
])('file name: %s', (_, name, expected) => expect(planFileName(name)).toBe(expected));

test('a long name is cut, and keeps its ending', () => {
  const name = planFileName('x'.repeat(300));
  expect(name).toBe(`${'x'.repeat(80)}.legroom.json`);
});

test('a text file is read whole', async () => {
  const result = await readPicked(new File(['{"é":1}'], 'kit.legroom.json'));
  expect(result).toEqual({ ok: true, file: { name: 'kit.legroom.json', text: '{"é":1}', handle: null } });
});

test('a picture is refused in words', async () => {
  const result = await readPicked(new File([new Uint8Array([0x89, 0x50, 0xff, 0xfe])], 'stage.png'));
  expect(result).toEqual({ ok: false, sentence: '“stage.png” is not a text file, so it is no plan.' });
});

test('a huge file is refused by its size, unread', async () => {
  const file = new File(['x'], 'film.mov');
  Object.defineProperty(file, 'size', { value: LIMITS.bytes + 1 });
  file.arrayBuffer = () => Promise.reject(new Error('it was read'));
  const result = await readPicked(file);
  expect(result).toMatchObject({ ok: false });
  expect(result.ok ? '' : result.sentence).toContain('at most 4.0 MB');
});

/** A file handle that remembers what was written to it. */
function handle(permission: PermissionState) {
  const written: string[] = [];
  return {
    written,
    file: {
      kind: 'file',
      name: 'kit.legroom.json',
      queryPermission: async () => 'prompt',
      requestPermission: async () => permission,
      createWritable: async () => ({ write: async (text: string) => void written.push(text), close: async () => {} }),
    } as unknown as FileSystemFileHandle,
  };
}

test('saving writes the file it came from', async () => {
  const { file, written } = handle('granted');
  const result = await savePlanFile('text', { fileName: 'x', handle: file }, {} as Window);
  expect(result).toEqual({ ok: true, name: 'kit.legroom.json', handle: file });
  expect(written).toEqual(['text']);
});

test('a file that may not be written is said to be unsaved', async () => {
  const { file, written } = handle('denied');
  const result = await savePlanFile('text', { fileName: 'x', handle: file }, {} as Window);
  expect(result).toEqual({
    ok: false,
    sentence: 'This page was not allowed to write “kit.legroom.json”. Nothing was saved.',
  });
  expect(written).toEqual([]);
});

test('closing the picker saves nothing and says nothing', async () => {
  const page = {
    showSaveFilePicker: () => Promise.reject(new DOMException('closed', 'AbortError')),
  } as unknown as Window;
  expect(await savePlanFile('text', { fileName: 'x', handle: null }, page)).toEqual({ ok: false, sentence: null });
});

test('"save elsewhere" asks again even with a known file', async () => {
  const known = handle('granted');
  const other = handle('granted');
  const page = { showSaveFilePicker: async () => other.file } as unknown as Window;
  await savePlanFile('text', { fileName: 'x', handle: known.file, elsewhere: true }, page);
  expect([known.written, other.written]).toEqual([[], ['text']]);
});
