/**
 * What a check's file needs to say something: states, units, senses, and one table of its codes.
 *
 * A table has a row for each code: the unit of its number, on which side of the limit the number has to stay, and (as a type)
 * the fields that its findings have beside the common ones. `saysOf` turns the table into the one way to make such findings, so
 * that none lacks its unit or its sense, and whoever reads one knows its fields from its code.
 */
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

declare const own: unique symbol;

interface CodeRow<Own extends Numbers = Numbers> {
  readonly unit: Unit;
  readonly sense: Sense;
  /** No value: the type of the code's own fields. */
  readonly [own]?: Own;
}

/** A row of a check's table. */
export const code = <Own extends Numbers = Measured & OnePiece>(unit: Unit, sense: Sense): CodeRow<Own> => ({
  unit,
  sense,
});

type Codes = Readonly<Record<string, CodeRow>>;
type Fields<Row> = Row extends CodeRow<infer Own> ? Omit<Common, keyof Own> & Own : never;
type Flat<T> = { readonly [K in keyof T]: T[K] };
type Made<Check extends string, Table extends Codes> = {
  [C in keyof Table & string]: Flat<Fields<Table[C]> & { check: Check; code: C; unit: Unit; sense: Sense }>;
}[keyof Table & string];

/** The findings of one check, from its table: `const says = saysOf('barRoom', {...})`; all of them: `ReturnType<typeof says>`. */
export const saysOf =
  <Check extends string, Table extends Codes>(check: Check, table: Table) =>
  <C extends keyof Table & string>(code: C, fields: Fields<Table[C]>): Extract<Made<Check, Table>, { code: C }> => {
    const { unit, sense } = table[code];
    return { check, code, unit, sense, ...(fields as object) } as Extract<Made<Check, Table>, { code: C }>;
  };
