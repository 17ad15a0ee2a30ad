/** Files: names that every system takes, strangers' files refused in words, saving again to the same file. */
import { afterEach, expect, test, vi } from 'vitest';
import { planFileName } from '../../../src/editor/state/files.ts';
import { readPicked } from '../../../src/editor/storage/planFile.ts';
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

afterEach(() => {
  vi.unstubAllGlobals();
  vi.resetModules();
});

/** The module as a browser with these pickers loads it. */
async function withPickers(pickers: object) {
  const page = { showOpenFilePicker: undefined, ...pickers };
  vi.stubGlobal('self', page);
  vi.stubGlobal('window', page);
  vi.resetModules();
  return import('../../../src/editor/storage/planFile.ts');
}

const GONE = new DOMException('gone', 'NotFoundError');
const CLOSED = new DOMException('closed', 'AbortError');
const TOO_LATE = new DOMException('no press', 'SecurityError');

/** A file handle that remembers what was written to it: the text of each write that was brought to its end. */
function handle({
  answer = 'granted' as PermissionState,
  refuses = null as Error | null,
  breaks = null as Error | null,
  isGone = false,
} = {}) {
  const written: string[] = [];
  const asked: string[] = [];
  let isAllowed = false;
  const file = {
    kind: 'file',
    name: 'kit.legroom.json',
    // A file of an earlier visit: nothing is allowed before the user is asked.
    requestPermission: async ({ mode }: { mode: string }) => {
      asked.push(mode);
      isAllowed = answer === 'granted';
      return answer;
    },
    getFile: async () => {
      if (isGone) throw GONE;
      if (!isAllowed) throw new DOMException('not asked', 'NotAllowedError');
      return new File(['{}'], 'kit.legroom.json');
    },
    createWritable: async () => {
      if (refuses) throw refuses;
      let text = '';
      const decoder = new TextDecoder();
      return new WritableStream<Uint8Array>({
        write: (bytes) => {
          if (breaks) throw breaks;
          text += decoder.decode(bytes, { stream: true });
        },
        close: () => void written.push(text),
      });
    },
  } as unknown as FileSystemFileHandle;
  return { written, asked, file, allow: () => (isAllowed = true) };
}

test('a picked file is read, and its handle is kept', async () => {
  const picked = handle();
  picked.allow();
  const options: object[] = [];
  const { pickPlanFile } = await withPickers({
    showOpenFilePicker: async (wanted: object) => {
      options.push(wanted);
      return [picked.file];
    },
  });
  expect(await pickPlanFile()).toEqual({
    ok: true,
    file: { name: 'kit.legroom.json', text: '{}', handle: picked.file },
  });
  // Other files may be chosen too, and are refused in words.
  expect(options).toMatchObject([
    { excludeAcceptAllOption: false, multiple: false, types: [{ accept: { 'application/json': ['.json'] } }] },
  ]);
});

test.each([
  ['closed by the user', CLOSED, null],
  [
    'not let by the browser',
    TOO_LATE,
    'The browser did not let this page choose a file. Try once more, or drop the file onto the page.',
  ],
  ['a file that went meanwhile', GONE, 'That file is no longer there.'],
])('opening, %s', async (_, problem, sentence) => {
  const { pickPlanFile } = await withPickers({ showOpenFilePicker: () => Promise.reject(problem) });
  expect(await pickPlanFile()).toEqual({ ok: false, sentence });
});

test('saving writes the file it came from, whole', async () => {
  const { file, written, asked } = handle();
  const { savePlanFile } = await withPickers({});
  const text = 'é'.repeat(100_000);
  const result = await savePlanFile(text, { fileName: 'x', handle: file });
  expect(result).toEqual({ ok: true, name: 'kit.legroom.json', handle: file });
  expect(written).toEqual([text]);
  expect(asked).toEqual(['readwrite']);
});

const NOT_ALLOWED = 'This page was not allowed to write “kit.legroom.json”. Nothing was saved.';
const NOT_WRITTEN =
  '“kit.legroom.json” could not be written: it may have been moved, or the disk may be full. The plan is still open.';

test.each([
  ['the user says no', { answer: 'denied' as const }, NOT_ALLOWED],
  ['the browser says no', { refuses: new DOMException('no', 'NotAllowedError') }, NOT_ALLOWED],
  ['the file is gone', { isGone: true }, NOT_WRITTEN],
  ['the disk fills up while it is written', { breaks: new DOMException('full', 'QuotaExceededError') }, NOT_WRITTEN],
  ['the disk is full', { refuses: new DOMException('full', 'QuotaExceededError') }, NOT_WRITTEN],
])('a known file that cannot be written is said to be unsaved: %s', async (_, how, sentence) => {
  const { file, written } = handle(how);
  // No other file is asked for in its place.
  const showSaveFilePicker = vi.fn();
  const { savePlanFile } = await withPickers({ showSaveFilePicker });
  expect(await savePlanFile('text', { fileName: 'x', handle: file })).toEqual({ ok: false, sentence });
  expect(written).toEqual([]);
  expect(showSaveFilePicker).not.toHaveBeenCalled();
});

test.each([
  ['closing the picker saves nothing and says nothing', CLOSED, null],
  [
    'a press that is too long ago is told',
    TOO_LATE,
    'The browser did not let this page choose a file. Nothing was saved: try once more.',
  ],
])('%s', async (_, problem, sentence) => {
  const { savePlanFile } = await withPickers({ showSaveFilePicker: () => Promise.reject(problem) });
  expect(await savePlanFile('text', { fileName: 'x', handle: null })).toEqual({ ok: false, sentence });
});

test('"save elsewhere" asks again even with a known file, and names the new one as the plan is named', async () => {
  const known = handle();
  const other = handle();
  const options: object[] = [];
  const { savePlanFile } = await withPickers({
    showSaveFilePicker: async (wanted: object) => {
      options.push(wanted);
      return other.file;
    },
  });
  await savePlanFile('text', { fileName: 'Club.legroom.json', handle: known.file, elsewhere: true });
  expect([known.written, other.written, known.asked]).toEqual([[], ['text'], []]);
  expect(options).toMatchObject([
    { suggestedName: 'Club.legroom.json', types: [{ accept: { 'application/json': ['.json'] } }] },
  ]);
});
