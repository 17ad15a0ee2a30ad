/**
 * JSON text to a value, stricter and kinder than JSON.parse: it says the line and column of a mistake and what is meant
 * to stand there, and it notices what JSON.parse swallows: an object's key written twice, numbers too large to be held,
 * and keys that would reach behind a JavaScript object.
 *
 * Exact:  for text without flaws the value is what JSON.parse makes of it; text that JSON.parse refuses is refused here,
 *         or has a flaw (NaN, Infinity).
 * Source: RFC 8259.
 */
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

const NUMBER = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y;
/** What people write where a number should be. */
const NUMBER_LIKE = /[-+]?[.\w]+/y;
const NOT_FINITE = /-?(?:NaN|Infinity)\b/y;
const WORD = /[A-Za-z_$][\w$]*/y;

class Mistake extends Error {
  readonly at: number;
  readonly code: 'not_json' | 'too_deep';
  constructor(at: number, reason: string, code: 'not_json' | 'too_deep' = 'not_json') {
    super(reason);
    this.at = at;
    this.code = code;
  }
}

/** Where reading stands. `path` leads to the value being read; containers are filled in place. */
class Reader {
  readonly text: string;
  at: number;
  flaw: Flaw | null = null;
  readonly path: (string | number)[] = [];

  constructor(text: string) {
    this.text = text;
    // A byte order mark is no part of the text.
    this.at = text.charCodeAt(0) === 0xfeff ? 1 : 0;
  }

  document(): unknown {
    const value = this.value();
    this.space();
    if (this.at < this.text.length)
      throw new Mistake(this.at, `the plan ended before this, so ${this.here()} is too much.`);
    return value;
  }

  private note(code: Flaw['code'], written: string): void {
    this.flaw ??= { code, path: [...this.path], written };
  }

  private space(): void {
    for (;;) {
      const c = this.text.charCodeAt(this.at);
      if (c !== 0x20 && c !== 0x0a && c !== 0x0d && c !== 0x09) return;
      this.at++;
    }
  }

  /** The next few characters, as a sentence can hold them. */
  private here(): string {
    if (this.at >= this.text.length) return 'the end of the file';
    if (this.text[this.at] === '"') return 'a double quote';
    const word = this.match(WORD);
    if (word !== null) return `"${word.slice(0, 20)}"`;
    return JSON.stringify(String.fromCodePoint(this.text.codePointAt(this.at)!));
  }

  private match(pattern: RegExp): string | null {
    pattern.lastIndex = this.at;
    return pattern.exec(this.text)?.[0] ?? null;
  }

  private value(): unknown {
    this.space();
    const c = this.text[this.at];
    if (c === '{') return this.object();
    if (c === '[') return this.list();
    if (c === '"') return this.string();
    if (c === '-' || (c >= '0' && c <= '9')) return this.number();
    for (const [word, value] of [
      ['true', true],
      ['false', false],
      ['null', null],
    ] as const)
      if (this.match(WORD) === word) {
        this.at += word.length;
        return value;
      }
    return this.number();
  }

  private number(): number {
    const strange = this.match(NOT_FINITE);
    if (strange !== null) {
      this.note('not_finite', strange);
      this.at += strange.length;
      return Number(strange);
    }
    const written = this.match(NUMBER);
    const like = this.match(NUMBER_LIKE);
    if (written === null || (like !== null && like.length > written.length)) {
      if (like !== null && /\d/.test(like))
        throw new Mistake(this.at, `"${like.slice(0, 30)}" is not a number as JSON writes them.`);
      throw new Mistake(this.at, this.notAValue());
    }
    this.at += written.length;
    const value = Number(written);
    if (!Number.isFinite(value)) this.note('not_finite', written);
    return value;
  }

  /** Why what stands here is no value. */
  private notAValue(): string {
    const c = this.text[this.at];
    if (c === "'") return 'text must stand in double quotes, not single ones.';
    if (c === '/') return 'a plan cannot hold comments.';
    return `a value should stand here, not ${this.here()}.`;
  }

  private string(): string {
    const start = this.at;
    let plain = true;
    for (let i = start + 1; ; i++) {
      const c = this.text.charCodeAt(i);
      if (Number.isNaN(c)) throw new Mistake(start, 'the text that begins here has no closing quote.');
      if (c === 0x22) {
        this.at = i + 1;
        if (plain) return this.text.slice(start + 1, i);
        return this.unescaped(start, i + 1);
      }
      if (c === 0x5c) {
        plain = false;
        i++;
      } else if (c < 0x20) {
        // Most often a quote that was forgotten at the end of a line.
        if (c === 0x0a || c === 0x0d)
          throw new Mistake(start, 'the text that begins here has no closing quote on its line.');
        throw new Mistake(i, 'text cannot hold a control character as it is.');
      }
    }
  }

  private unescaped(start: number, end: number): string {
    try {
      return JSON.parse(this.text.slice(start, end)) as string;
    } catch {
      throw new Mistake(start, 'the text that begins here has a backslash that means nothing.');
    }
  }

  private enter(): void {
    if (this.path.length >= LIMITS.nesting)
      throw new Mistake(this.at, `objects and lists are nested more than ${LIMITS.nesting} deep here.`, 'too_deep');
    this.at++;
    this.space();
  }

  private list(): unknown[] {
    this.enter();
    const list: unknown[] = [];
    if (this.text[this.at] === ']') {
      this.at++;
      return list;
    }
    for (;;) {
      this.path.push(list.length);
      list.push(this.value());
      this.path.pop();
      if (this.closes(']')) return list;
      if (this.text[this.at] === ']') throw new Mistake(this.at, 'there is a comma too much before this bracket.');
    }
  }

  private object(): Record<string, unknown> {
    this.enter();
    const object: Record<string, unknown> = {};
    if (this.text[this.at] === '}') {
      this.at++;
      return object;
    }
    for (;;) {
      if (this.text[this.at] !== '"')
        throw new Mistake(this.at, `a name in double quotes should stand here, not ${this.here()}.`);
      const key = this.string();
      this.space();
      if (this.text[this.at] !== ':')
        throw new Mistake(this.at, `a colon should follow the name "${key.slice(0, 30)}", not ${this.here()}.`);
      this.at++;
      const refused = REFUSED_KEYS.has(key);
      const doubled = Object.hasOwn(object, key);
      if (refused) this.note('refused_key', key);
      else if (doubled) this.note('doubled_key', key);
      this.path.push(key);
      const value = this.value();
      this.path.pop();
      // The first of two stays, so that the place is told by its name.
      if (!refused && !doubled) object[key] = value;
      if (this.closes('}')) return object;
      if (this.text[this.at] === '}') throw new Mistake(this.at, 'there is a comma too much before this brace.');
    }
  }

  /** After an entry: true at the closing sign, false (and past it) at a comma. */
  private closes(sign: ']' | '}'): boolean {
    this.space();
    const c = this.text[this.at];
    if (c === sign) {
      this.at++;
      return true;
    }
    if (c !== ',') throw new Mistake(this.at, `a comma or "${sign}" should stand here, not ${this.here()}.`);
    this.at++;
    this.space();
    return false;
  }
}

export function parseJson(text: string): ParsedJson {
  const reader = new Reader(text);
  try {
    const value = reader.document();
    return { ok: true, value, flaw: reader.flaw };
  } catch (error) {
    if (!(error instanceof Mistake)) throw error;
    const before = text.slice(0, error.at);
    const lineStart = before.lastIndexOf('\n') + 1;
    let line = 1;
    for (let i = before.indexOf('\n'); i >= 0; i = before.indexOf('\n', i + 1)) line++;
    return { ok: false, code: error.code, line, column: error.at - lineStart + 1, reason: error.message };
  }
}
