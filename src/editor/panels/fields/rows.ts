/**
 * Fields as rows of a table: where each stands in the plan, what it is called, and what is out of the ordinary about it. All else
 * follows: its measure from the unit in its name, its bounds and whether it may be empty from the schema, its value from the plan,
 * and its command from the table it stands in.
 *
 * `T`: what a table's fields are read from and written to: a piece, a bar, a line of a list, with the plan around it. Pure.
 */
import type * as z from 'zod/mini';
import type { Command } from '../../../plan/commands/index.ts';
import type { Plan, Setup } from '../../../plan/schema.ts';
import type { DisplayUnit } from '../../../units.ts';
import { type Bounds, fieldAt, type SchemaField } from './bounds.ts';
import { kindOfField, type Measure, type MeasureKind, measureOf } from './measures.ts';

/** What a panel knows of the plan around its fields. */
export interface Here {
  readonly plan: Plan;
  readonly setup: Setup;
  readonly setupId: string;
  readonly units: DisplayUnit;
  /** Whether what hangs on a piece moves with it. */
  readonly carries: boolean;
}

/** What a field asks for: a command, or nothing but to say why not. Null: it is done (what is not the plan's takes its value itself). */
export type Change = Command | { readonly refusal: string } | null;

export interface Choice {
  readonly id: string;
  readonly label: string;
  readonly group?: string;
}
/** The choice of nothing. */
export const NONE = '';

type Told<T, V> = V | ((thing: T) => V);

interface AnyRow<T> {
  /** Below the table's schema; a word after a union chooses the form (`carrier.bar.atMm`). */
  readonly path: string;
  readonly label: Told<T, string>;
  /** The head of its column, where its table is one and the label is longer. */
  readonly head?: string;
  /** The row is there only for such things. */
  readonly when?: (thing: T) => boolean;
  /** May be changed while the piece is locked: a name, a note, the lock itself. */
  readonly evenLocked?: true;
}

export interface NumberRow<T> extends AnyRow<T> {
  readonly as?: undefined;
  /** A short note after the label, such as "measured". */
  readonly note?: Told<T, string | undefined>;
  /** Where the name does not say it. */
  readonly measure?: MeasureKind;
  /** Left out: what stands at the path. Null: the plan says nothing here. */
  readonly value?: (thing: T) => number | null;
  /** What holds while the field is empty; shown grey. */
  readonly otherwise?: (thing: T) => number | null;
  /** Tighter than the schema's; for what is worked out from the plan and is not in it, the only ones. */
  readonly bounds?: Told<T, Bounds>;
  /** Not a field of the plan but worked out from it. */
  readonly derived?: true;
  readonly set?: (thing: T, value: number) => Change;
  /** Left out: an optional field is taken away. False: it cannot be emptied. */
  readonly clear?: false | ((thing: T) => Change);
}

export interface WordRow<T> extends AnyRow<T> {
  readonly as: 'words';
  readonly value?: (thing: T) => string;
  readonly lines?: number;
  readonly placeholder?: string;
  /** Left out: as the schema has it, which takes an optional text away. */
  readonly mayBeEmpty?: boolean;
  /** Id of a datalist with words to choose from. */
  readonly suggestions?: (thing: T) => string;
  readonly set?: (thing: T, value: string) => Change;
}

export interface ChoiceRow<T> extends AnyRow<T> {
  readonly as: 'choice';
  readonly choices: (thing: T) => readonly Choice[];
  readonly value?: (thing: T) => string;
  readonly set?: (thing: T, id: string) => Change;
}

/** A tick is as small as a table's cell. */
export interface SwitchRow<T> extends AnyRow<T> {
  readonly as: 'switch' | 'tick';
}

export type Row<T> = NumberRow<T> | WordRow<T> | ChoiceRow<T> | SwitchRow<T>;

export interface FieldTable<T, S extends string = string> {
  /** Of the thing whose fields these are; left out where all are derived. */
  readonly schema?: Told<T, z.core.$ZodType>;
  readonly record: (thing: T) => object;
  /** The command that makes a field of the thing this value; null as a value takes it away. */
  readonly write: (thing: T, keys: readonly string[], value: unknown) => Change;
  readonly isLocked?: (thing: T) => boolean;
  /** Not the plan's: it may be changed while another tab writes the plan. */
  readonly isOwn?: true;
  readonly sections: Readonly<Record<S, readonly Row<T>[]>>;
}

/** The same function for all `T`s: `told(row.label, thing)`. */
export const told = <T, V>(what: Told<T, V>, thing: T): V =>
  typeof what === 'function' ? (what as (thing: T) => V)(thing) : what;

/** What stands at the end of keys; undefined where the way there ends early. */
const valueAt = (record: object, keys: readonly string[]): unknown =>
  keys.reduce<unknown>((at, key) => (at as Record<string, unknown> | null | undefined)?.[key], record);

/** The record's own field with one value within it set: `{ foot: { ...foot, lengthMm } }`. */
export function patched(record: object, [key, ...rest]: readonly string[], value: unknown): Record<string, unknown> {
  if (rest.length === 0) return { [key]: value };
  const old = ((record as Record<string, unknown>)[key] ?? {}) as object;
  return { [key]: { ...old, ...patched(old, rest, value) } };
}

export function schemaField<T>(table: FieldTable<T>, row: Row<T>, thing: T): SchemaField {
  const schema = told(table.schema, thing);
  if (schema === undefined) throw new Error(`“${row.path}” has no schema, and is not derived.`);
  return fieldAt(schema, row.path);
}

export interface NumberField {
  readonly value: number | null;
  readonly otherwise: number | null;
  readonly measure: Measure;
  readonly set: (value: number) => Change;
  /** Undefined where it cannot be emptied. */
  readonly clear?: () => Change;
}

const tightest = (a: Bounds, b: Bounds): Bounds => ({
  least: Math.max(a.least ?? Number.NEGATIVE_INFINITY, b.least ?? Number.NEGATIVE_INFINITY),
  most: Math.min(a.most ?? Number.POSITIVE_INFINITY, b.most ?? Number.POSITIVE_INFINITY),
});

export function numberField<T>(table: FieldTable<T>, row: NumberRow<T>, thing: T, units: DisplayUnit): NumberField {
  const field = row.derived ? null : schemaField(table, row, thing);
  const keys = field?.keys ?? [row.path];
  const own = told(row.bounds, thing) ?? {};
  const put = (value: number | null) => table.write(thing, keys, value);
  const { clear, set } = row;
  const wipe = clear === undefined ? (field?.mayBeNone ? () => put(null) : undefined) : clear && (() => clear(thing));
  return {
    value: row.value === undefined ? ((valueAt(table.record(thing), keys) ?? null) as number | null) : row.value(thing),
    otherwise: row.otherwise?.(thing) ?? null,
    measure: measureOf(
      row.measure ?? kindOfField(row.path),
      units,
      field === null ? own : tightest(field, own),
      field?.isAbove,
    ),
    set: (value) => (set === undefined ? put(value) : set(thing, value)),
    ...(wipe ? { clear: wipe } : {}),
  };
}

/** A field of words, a choice or a switch. Null, as it is written, takes an optional one away. */
export interface PlainField<V> {
  readonly value: V;
  /** Letters of a text. */
  readonly most: number;
  readonly mayBeNone: boolean;
  readonly set: (value: V) => Change;
}

interface Own<T, V> {
  readonly value?: (thing: T) => V;
  readonly set?: (thing: T, value: V) => Change;
}

function plainField<T, V>(table: FieldTable<T>, row: Row<T>, thing: T, none: V): PlainField<V> {
  const { keys, most, mayBeNone } = schemaField(table, row, thing);
  const { value, set } = row as Own<T, V>;
  return {
    value: value === undefined ? ((valueAt(table.record(thing), keys) ?? none) as V) : value(thing),
    most,
    mayBeNone,
    set: (next) =>
      set === undefined ? table.write(thing, keys, next === none && mayBeNone ? null : next) : set(thing, next),
  };
}

export const textField = <T>(table: FieldTable<T>, row: WordRow<T> | ChoiceRow<T>, thing: T) =>
  plainField<T, string>(table, row, thing, NONE);
export const switchField = <T>(table: FieldTable<T>, row: SwitchRow<T>, thing: T) =>
  plainField<T, boolean>(table, row, thing, false);
