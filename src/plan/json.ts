/**
 * JSON text to a value, stricter and kinder than JSON.parse: it says the line and column of a mistake and what is meant
 * to stand there, and it notices what JSON.parse swallows: an object's key written twice, numbers too large to be held,
 * and keys that would reach behind a JavaScript object.
 *
 * jsonc-parser reads the text and says where it stands. Ours are the words, the depth, the keys, and the numbers: the
 * parser reads "007" as three numbers, and knows no NaN.
 *
 * Exact:  for text without flaws the value is what JSON.parse makes of it; text that JSON.parse refuses is refused here,
 *         or has a flaw (NaN, Infinity).
 * Source: RFC 8259.
 */
import { type JSONVisitor, printParseErrorCode, visit } from 'jsonc-parser';
import { LIMITS } from './schema.ts';

/** Something that can be read past, so that the place can be told by names. Only the first is kept. */
export interface Flaw {
  readonly code: 'doubled_key' | 'refused_key' | 'not_finite';
  readonly path: readonly (string | number)[];
  /** The key, or the number as it was written. */
  readonly written: string;
}

export type ParsedJson =
  | { readonly ok: true; readonly value: unknown; readonly flaw: Flaw | null }
  | {
      readonly ok: false;
      readonly code: 'not_json' | 'too_deep';
      /** Both from 1; the column counts characters as JavaScript does. */
      readonly line: number;
      readonly column: number;
      /** What is wrong, to stand after "Line 1, column 2: ". */
      readonly reason: string;
    };

/** Keys that change how an object works instead of what it holds. */
const REFUSED_KEYS = new Set(['__proto__', 'constructor', 'prototype']);

/** What people write where a number should be. */
const NUMBER_LIKE = /[-+]?[.\w]+/y;
/** Written on to the end of a number, it makes the two of them none. */
const GOES_ON = /[.\w]/y;
const NOT_FINITE = /-?(?:NaN|Infinity)\b/y;
const WORD = /[A-Za-z_$][\w$]*/y;

class Mistake extends Error {
  constructor(
    readonly at: number,
    reason: string,
    readonly code: 'not_json' | 'too_deep' = 'not_json',
  ) {
    super(reason);
  }
}

/** An object or a list that is being filled, and the key that its next value goes under. */
type Open =
  | { readonly list: unknown[] }
  | { readonly object: Record<string, unknown>; key: string; isKept: boolean; readonly list?: undefined };

/**
 * Builds the value as the parser walks. `due` is what the text must say next; where it says something else the first
 * complaint is thrown, whoever has it: the parser goes on after a mistake, and we do not.
 */
class Builder implements JSONVisitor {
  value: unknown;
  flaw: Flaw | null = null;
  private due: 'value' | 'name' | 'colon' | 'comma' = 'value';
  private followsComma = false;
  private readonly open: Open[] = [];

  constructor(private readonly text: string) {}

  onObjectBegin = (offset: number): void => this.enter(offset, { object: {}, key: '', isKept: true }, 'name');
  onArrayBegin = (offset: number): void => this.enter(offset, { list: [] }, 'value');
  onObjectEnd = (offset: number, length: number): void => this.leave(offset, length);
  onArrayEnd = (offset: number, length: number): void => this.leave(offset, length);

  onObjectProperty = (key: string): void => {
    const inside = this.open.at(-1) as Extract<Open, { list?: undefined }>;
    inside.key = key;
    const refused = REFUSED_KEYS.has(key);
    const doubled = Object.hasOwn(inside.object, key);
    if (refused || doubled) this.note(refused ? 'refused_key' : 'doubled_key', key, this.open.slice(0, -1));
    // The first of two stays, so that the place is told by its name.
    inside.isKept = !refused && !doubled;
    this.due = 'colon';
  };

  onLiteralValue = (value: unknown, offset: number, length: number): void => {
    if (typeof value === 'number') {
      GOES_ON.lastIndex = offset + length;
      if (GOES_ON.test(this.text)) throw notANumber(offset, this.match(NUMBER_LIKE, offset)!);
      if (!Number.isFinite(value)) this.note('not_finite', this.text.slice(offset, offset + length));
    }
    this.put(value, offset);
  };

  onSeparator = (sign: string): void => {
    this.followsComma = sign === ',';
    this.due = sign === ',' && this.open.at(-1)?.list === undefined ? 'name' : 'value';
  };

  onError = (error: number, offset: number, length: number): void => {
    switch (printParseErrorCode(error)) {
      case 'InvalidCommentToken':
        throw new Mistake(offset, 'a plan cannot hold comments.');
      case 'UnexpectedEndOfString': {
        // Most often a quote that was forgotten at the end of a line.
        const where = offset + length < this.text.length ? ' on its line' : '';
        throw new Mistake(offset, `the text that begins here has no closing quote${where}.`);
      }
      case 'InvalidUnicode':
      case 'InvalidEscapeCharacter':
        throw new Mistake(offset, 'the text that begins here has a backslash that means nothing.');
      case 'InvalidCharacter':
        throw new Mistake(offset, 'the text that begins here holds a control character as it is.');
      case 'ValueExpected':
        // The parser's answer to a NaN that was read past.
        if (this.due === 'comma') return;
    }
    if (this.due === 'value') {
      const strange = this.match(NOT_FINITE, offset);
      if (strange !== null) {
        this.note('not_finite', strange);
        this.put(Number(strange), offset);
        return;
      }
    }
    // The rest of -Infinity, of which the parser sees two words.
    const isRest = this.due === 'comma' && this.text.startsWith('-Infinity', offset - 1);
    if (!isRest) throw this.unexpected(offset);
  };

  private enter(offset: number, opened: Open, due: 'name' | 'value'): void {
    if (this.open.length >= LIMITS.nesting)
      throw new Mistake(offset, `objects and lists are nested more than ${LIMITS.nesting} deep here.`, 'too_deep');
    this.put(opened.list ?? opened.object, offset);
    this.open.push(opened);
    this.due = due;
    this.followsComma = false;
  }

  private leave(offset: number, length: number): void {
    // The parser closes what is open where the text ends, too.
    if (length === 0) throw this.unexpected(offset);
    this.open.pop();
    this.due = 'comma';
  }

  private put(value: unknown, offset: number): void {
    if (this.due !== 'value') throw this.unexpected(offset);
    const inside = this.open.at(-1);
    if (inside === undefined) this.value = value;
    else if (inside.list !== undefined) inside.list.push(value);
    else if (inside.isKept) inside.object[inside.key] = value;
    this.due = 'comma';
  }

  private note(code: Flaw['code'], written: string, open: readonly Open[] = this.open): void {
    // What stands in an outer list is in it already; what the innermost waits for is not.
    const keyIn = (one: Open, depth: number) =>
      one.list === undefined ? one.key : one.list.length - (depth < this.open.length - 1 ? 1 : 0);
    this.flaw ??= { code, path: open.map(keyIn), written };
  }

  private match(pattern: RegExp, offset: number): string | null {
    pattern.lastIndex = offset;
    return pattern.exec(this.text)?.[0] ?? null;
  }

  /** The next few characters, as a sentence can hold them. */
  private here(offset: number): string {
    if (offset >= this.text.length) return 'the end of the file';
    if (this.text[offset] === '"') return 'a double quote';
    const word = this.match(WORD, offset);
    if (word !== null) return `"${word.slice(0, 20)}"`;
    return JSON.stringify(String.fromCodePoint(this.text.codePointAt(offset)!));
  }

  /** Why what stands here is not what is due. */
  private unexpected(offset: number): Mistake {
    const inside = this.open.at(-1);
    const sign = this.text[offset];
    if (this.followsComma && this.due !== 'comma' && this.due !== 'colon') {
      if (sign === ']') return new Mistake(offset, 'there is a comma too much before this bracket.');
      if (sign === '}') return new Mistake(offset, 'there is a comma too much before this brace.');
    }
    const here = this.here(offset);
    if (this.due === 'name') return new Mistake(offset, `a name in double quotes should stand here, not ${here}.`);
    if (this.due === 'colon') {
      const { key } = inside as { key: string };
      return new Mistake(offset, `a colon should follow the name "${key.slice(0, 30)}", not ${here}.`);
    }
    if (this.due === 'comma') {
      if (inside === undefined) return new Mistake(offset, `the plan ended before this, so ${here} is too much.`);
      const end = inside.list === undefined ? '}' : ']';
      return new Mistake(offset, `a comma or "${end}" should stand here, not ${here}.`);
    }
    if (sign === "'") return new Mistake(offset, 'text must stand in double quotes, not single ones.');
    const like = this.match(NUMBER_LIKE, offset);
    if (like !== null && /\d/.test(like)) return notANumber(offset, like);
    return new Mistake(offset, `a value should stand here, not ${here}.`);
  }
}

const notANumber = (offset: number, like: string) =>
  new Mistake(offset, `"${like.slice(0, 30)}" is not a number as JSON writes them.`);

export function parseJson(file: string): ParsedJson {
  // A byte order mark is no part of the text; a browser takes the first away by itself, so that page and command differed by one.
  const text = file.replace(/^\uFEFF+/, '');
  const builder = new Builder(text);
  try {
    visit(text, builder, { disallowComments: true });
    return { ok: true, value: builder.value, flaw: builder.flaw };
  } catch (error) {
    if (!(error instanceof Mistake)) throw error;
    const lines = text.slice(0, error.at).split('\n');
    const { code, message: reason } = error;
    return { ok: false, code, line: lines.length, column: lines[lines.length - 1].length + 1, reason };
  }
}
