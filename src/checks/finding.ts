/**
 * What a check says. A finding is a value; its sentence is made in drawing/sentences.ts, once for page, sheets and reports.
 * Codes are the rule's own name; `pieces` are piece ids; `at` is where on the plan it speaks of.
 */
export type State = 'clear' | 'tight' | 'blocked' | 'unmeasured';
export type Unit = 'mm' | 'm2' | 'kg' | 'N' | 'deg' | 'kPa' | 'Nm' | 'MPa' | 'count' | 'ratio';

/** What a piece frees and costs against the one that would stand there in its place. Freed: > 0 less than before. */
export interface Trade {
  /** Gear id of the other, and the setup that it stands in; null: the catalogue's, for no setup has one. */
  readonly against: string;
  readonly setup: string | null;
  /** m2: of what comes down to the deck, seen from above; and of the hull about all that touches it. */
  readonly floor: number;
  readonly hull: number;
  /** Fewer feet on the deck. */
  readonly feet: number;
  readonly links: number;
  readonly clamps: number;
  /** kg: the links and clamps; and all of it against the other, links and clamps included. Null: not all of it is weighed. */
  readonly partsMass: number | null;
  readonly moreMass: number | null;
}

export interface Finding {
  readonly check: string;
  readonly code: string;
  readonly state: State;
  readonly pieces: readonly string[];
  readonly bodies: readonly string[];
  readonly value: number | null;
  readonly limit: number | null;
  readonly unit: Unit;
  /** Where the limit is from: 'set by you', 'common practice', a standard's name. */
  readonly source: string;
  readonly at: readonly [number, number] | null;
  /** A gap's two nearest points, x0 y0 x1 y1, so that it can be drawn. */
  readonly line?: readonly [number, number, number, number];
  /** Gear ids that its sentence names: what is used, then what would do. */
  readonly gear?: readonly string[];
  readonly trade?: Trade;
}
