import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parseJson } from '../../../src/plan/json.ts';
import { runs } from '../../fixtures/seeds.ts';

const ours = (text: string) => {
  const parsed = parseJson(text);
  if (!parsed.ok) throw new Error(`line ${parsed.line}, column ${parsed.column}: ${parsed.reason}`);
  return parsed;
};

describe('agrees with JSON.parse', () => {
  test('on any JSON value, however it is spaced', () => {
    fc.assert(
      fc.property(fc.jsonValue({ maxDepth: 6 }), fc.constantFrom(undefined, 1, '\t', ' \r\n '), (value, space) => {
        const text = JSON.stringify(value, null, space);
        fc.pre(!/"(__proto__|constructor|prototype)":/.test(text));
        const parsed = ours(text);
        expect(parsed.value).toEqual(JSON.parse(text));
        expect(parsed.flaw).toBeNull();
      }),
      { seed: 71, numRuns: 500 },
    );
  }, 30_000);

  test.each([
    '"\\u00e9\\n\\"\\\\\\/"',
    '"Größe 12 × 8"',
    '-0',
    '0.5e-3',
    '1E+2',
    ' [ ] ',
    '{ }',
    '"\\ud83e\\udd41"',
    '"🥁"',
    'true',
    'null',
  ])('on %s', (text) => expect(ours(text).value).toEqual(JSON.parse(text)));

  test('a broken text is refused by both, or has a flaw', () => {
    const pieces = fc.constantFrom(
      '{',
      '}',
      '[',
      ']',
      ',',
      ':',
      '"a"',
      '"a',
      '1',
      '-',
      '.5',
      '1.',
      '01',
      '1e',
      'true',
      'nul',
      'NaN',
      '\\',
      "'b'",
      ' ',
      '\n',
      '\u0000',
      '// c',
      '"\\x"',
    );
    fc.assert(
      fc.property(fc.array(pieces, { maxLength: 8 }), (parts) => {
        const text = parts.join('');
        let theirs: { value: unknown } | null = null;
        try {
          theirs = { value: JSON.parse(text) };
        } catch {}
        const parsed = parseJson(text);
        if (theirs === null) expect(parsed.ok && parsed.flaw === null).toBe(false);
        else
          expect(
            parsed.ok &&
              (parsed.flaw !== null || Object.is(JSON.stringify(parsed.value), JSON.stringify(theirs.value))),
          ).toBe(true);
      }),
      runs(5000),
    );
  }, 30_000);
});

describe('says where and what', () => {
  test.each([
    // text                         line column  reason
    ['', 1, 1, 'a value should stand here, not the end of the file.'],
    ['{\n  "a": 1\n  "b": 2\n}', 3, 3, 'a comma or "}" should stand here, not a double quote.'],
    ['{\n  "a": 1,\n}', 3, 1, 'there is a comma too much before this brace.'],
    ['[1, 2, ]', 1, 8, 'there is a comma too much before this bracket.'],
    ['{ a: 1 }', 1, 3, 'a name in double quotes should stand here, not "a".'],
    ['{ "a" 1 }', 1, 7, 'a colon should follow the name "a", not "1".'],
    ['{ "a": \'x\' }', 1, 8, 'text must stand in double quotes, not single ones.'],
    ['{ "a": // why\n 1 }', 1, 8, 'a plan cannot hold comments.'],
    ['[1, 2', 1, 6, 'a comma or "]" should stand here, not the end of the file.'],
    ['{"a": undefined}', 1, 7, 'a value should stand here, not "undefined".'],
    ['{"a": 007}', 1, 7, '"007" is not a number as JSON writes them.'],
    ['{"a": .5}', 1, 7, '".5" is not a number as JSON writes them.'],
    ['{"a": 12mm}', 1, 7, '"12mm" is not a number as JSON writes them.'],
    ['{"a": "x\n}', 1, 7, 'the text that begins here has no closing quote on its line.'],
    ['{"a": "x', 1, 7, 'the text that begins here has no closing quote.'],
    ['{"a": "\\q"}', 1, 7, 'the text that begins here has a backslash that means nothing.'],
    ['{"a": "\\u12"}', 1, 7, 'the text that begins here has a backslash that means nothing.'],
    ['{"a": "x\u0001"}', 1, 7, 'the text that begins here holds a control character as it is.'],
    ['/* why */ {}', 1, 1, 'a plan cannot hold comments.'],
    ['{"a": 1, /* why', 1, 10, 'a plan cannot hold comments.'],
    ['\ufeff{"a": }', 1, 7, 'a value should stand here, not "}".'],
    ['{,}', 1, 2, 'a name in double quotes should stand here, not ",".'],
    ['[1,,2]', 1, 4, 'a value should stand here, not ",".'],
    ['[NaN 1]', 1, 6, 'a comma or "]" should stand here, not "1".'],
    ['{"a": -Infinity', 1, 16, 'a comma or "}" should stand here, not the end of the file.'],
    ['[\r\n  "\ud83e" 1]', 2, 7, 'a comma or "]" should stand here, not "1".'],
    ['{} {}', 1, 4, 'the plan ended before this, so "{" is too much.'],
  ])('%j', (text, line, column, reason) => {
    expect(parseJson(text)).toEqual({ ok: false, code: 'not_json', line, column, reason });
  });

  test('forty deep is read, forty-one is not', () => {
    expect(parseJson(`${'['.repeat(40)}${']'.repeat(40)}`).ok).toBe(true);
    expect(parseJson('['.repeat(1_000_000))).toEqual({
      ok: false,
      code: 'too_deep',
      line: 1,
      column: 41,
      reason: 'objects and lists are nested more than 40 deep here.',
    });
  });
});

describe('flaws are read past and told', () => {
  test.each([
    ['{"a": {"b": 1, "c": 2, "b": 3}}', { code: 'doubled_key', path: ['a'], written: 'b' }],
    ['{"a": {"b": 1, "\\u0062": 3}}', { code: 'doubled_key', path: ['a'], written: 'b' }],
    ['{"a": [0, 1e999]}', { code: 'not_finite', path: ['a', 1], written: '1e999' }],
    ['{"a": NaN}', { code: 'not_finite', path: ['a'], written: 'NaN' }],
    ['[[0], [1, -Infinity], 2]', { code: 'not_finite', path: [1, 1], written: '-Infinity' }],
    ['[{"a": 1}, {"a": 1, "a": [2]}]', { code: 'doubled_key', path: [1], written: 'a' }],
    ['{"a": -Infinity}', { code: 'not_finite', path: ['a'], written: '-Infinity' }],
    ['{"a": {"__proto__": {"x": 1}}}', { code: 'refused_key', path: ['a'], written: '__proto__' }],
    ['{"constructor": {"prototype": {}}}', { code: 'refused_key', path: [], written: 'constructor' }],
  ])('%s', (text, flaw) => expect(ours(text).flaw?.code === flaw.code && ours(text).flaw).toEqual(flaw));

  test('of a key written twice the first stays', () => expect(ours('{"a": 1, "a": 2}').value).toEqual({ a: 1 }));

  test('a refused key reaches no object', () => {
    const { value } = ours('{"__proto__": {"polluted": true}, "a": 1}');
    expect(value).toEqual({ a: 1 });
    expect((value as { polluted?: boolean }).polluted).toBeUndefined();
    expect(({} as { polluted?: boolean }).polluted).toBeUndefined();
  });
});
