/**
 * What a check's file needs to say something: states, units, senses, and one table of its codes.
 *
 * A table has a row for each code: the unit of its number, on which side of the limit the number has to stay, its sentence, and (as a
 * type) the fields that its findings have beside the common ones. `saysOf` turns the table into the one way to make such findings, so
 * that none lacks its unit, its sense or its words, and whoever reads one knows its fields from its code.
 *
 * A finding is plain data and carries no words. A sentence is made where somebody reads it (words/sentences.ts): names of pieces and
 * gear, and numbers in the plan's units, come from there, and only what is said with them stands here.
 */
import type { Body } from '../layout/body.ts';
import type { Load } from './loads.ts';

export type State = 'clear' | 'tight' | 'blocked' | 'unmeasured';

/** Worst first. */
export const STATE_ORDER: readonly State[] = ['blocked', 'tight', 'unmeasured', 'clear'];

export type Unit = 'mm' | 'm2' | 'kg' | 'deg' | 'kPa' | 'Nm' | 'MPa';

/** The value should be at least, or at most, the limit; null: there is never a limit. */
export type Sense = 'atLeast' | 'atMost' | null;

export type Place = readonly [number, number];

/** In every finding. `pieces` are piece ids, `bodies` body ids; `source`: where the limit is from; `at`: where on the plan it speaks of. */
interface Common {
  readonly state: State;
  readonly pieces: readonly string[];
  readonly bodies: readonly string[];
  /** 'set in this plan', "Legroom's own default", a standard's name. */
  readonly source: string;
  readonly at: Place | null;
}

/** What a code's own fields have to say at least. */
interface Numbers {
  readonly value: number | null;
  readonly limit: number | null;
}

/** A number against its limit. */
export interface Measured {
  readonly value: number;
  readonly limit: number;
}

/** Nothing could be measured, or there is no number to it. */
export interface Unmeasured {
  readonly value: null;
  readonly limit: null;
}

export interface OnePiece {
  readonly pieces: readonly [string];
}

export interface TwoPieces {
  readonly pieces: readonly [string, string];
}

export interface SomePieces {
  readonly pieces: readonly [string, ...string[]];
}

/** Two points to draw a line between, x0 y0 x1 y1: a gap's nearest ones, an arm's two ends. */
export interface Drawn {
  readonly line: readonly [number, number, number, number];
}

/** Which part of a piece it is: a post, a foot, the shell. */
export type PartOf = Pick<Body, 'kind' | 'part'>;

/** A finding between two parts: of the first piece and of the second; of one piece that is in its own way, two parts of it. */
export interface Between {
  readonly pieces: readonly string[];
  readonly parts: readonly [PartOf, PartOf];
}

/** What a sentence is made of beside the finding's own fields: names, and numbers as the plan's user reads them. */
export interface Told {
  /** Of its pieces, in their order. */
  readonly names: readonly string[];
  /** Its numbers with their unit; 'unknown' where there is none. */
  readonly value: string;
  readonly limit: string;
  /** The value without its sign: how much is missing. */
  readonly missing: string;
  /** What a piece of this setup, gear, another setup and a load are called; names one after the other. */
  piece(id: string): string;
  gear(id: string): string;
  setup(id: string): string;
  load(load: Load): string;
  listed(names: readonly string[]): string;
  /** A socket of an arm, `left socket`. */
  socket(arm: string, at: number): string;
  /** The two parts that a clearance is between; the first as a sentence begins, unless told otherwise. */
  partsOf(found: Between, atStart?: boolean): readonly [string, string];
  length(mm: number): string;
  mass(kg: number): string;
  /** `1 link`, `2 links`. */
  counted(count: number, one: string, many?: string): string;
}

/** One sentence, or two where there is much to say; a full stop at its end. In the words of the drum trade, subject first, with the remedy. */
export type Say<F> = (told: Told, finding: F) => string;

declare const own: unique symbol;

interface CodeRow<Own extends Numbers = Numbers> {
  readonly unit: Unit;
  readonly sense: Sense;
  // A method, so that a table may hold rows whose findings have more fields than others'.
  sentence(told: Told, finding: Common & Own): string;
  /** No value: the type of the code's own fields. */
  readonly [own]?: Own;
}

/** A row of a check's table: of a number of one piece against its limit, unless it is told what else its findings have. */
export function code(
  unit: Unit,
  sense: Sense,
  sentence: Say<Common & Measured & OnePiece>,
): CodeRow<Measured & OnePiece>;
export function code<Own extends Numbers>(unit: Unit, sense: Sense, sentence: Say<Common & Own>): CodeRow<Own>;
export function code(unit: Unit, sense: Sense, sentence: Say<never>): CodeRow {
  return { unit, sense, sentence };
}

type Codes = Readonly<Record<string, CodeRow>>;

/** A check to whoever reads its findings. */
export interface Check<Name extends string = string, Table extends Codes = Codes> {
  readonly name: Name;
  /** What it is called over its findings. */
  readonly word: string;
  /**
   * What has to stand beside answers on which somebody's back, foot or fall may depend, in one sentence or two: what the
   * number does not cover. Null: no such answers.
   */
  readonly caution: string | null;
  readonly codes: Table;
}

export const checkOf = <Name extends string, Table extends Codes>(
  name: Name,
  told: Omit<Check<Name, Table>, 'name'>,
): Check<Name, Table> => ({ name, ...told });

type Fields<Row> = Row extends CodeRow<infer Own> ? Omit<Common, keyof Own> & Own : never;
type Flat<T> = { readonly [K in keyof T]: T[K] };
type Made<Name extends string, Table extends Codes> = {
  [C in keyof Table & string]: Flat<Fields<Table[C]> & { check: Name; code: C; unit: Unit; sense: Sense }>;
}[keyof Table & string];

/** All findings that a check can make. */
export type FoundBy<C> = C extends Check<infer Name, infer Table> ? Made<Name, Table> : never;

/** The one way to make findings of a check: `const says = saysOf(BAR_ROOM)`; all of them: `ReturnType<typeof says>`. */
export const saysOf =
  <Name extends string, Table extends Codes>({ name, codes }: Check<Name, Table>) =>
  <C extends keyof Table & string>(code: C, fields: Fields<Table[C]>): Extract<Made<Name, Table>, { code: C }> => {
    const { unit, sense } = codes[code];
    return { check: name, code, unit, sense, ...(fields as object) } as Extract<Made<Name, Table>, { code: C }>;
  };
