/**
 * What a check says. A finding is a value; its sentence is made in drawing/sentences.ts, once for page, sheets and reports.
 * Codes are the rule's own name; `pieces` are piece ids; `at` is where on the plan it speaks of.
 */
export type State = 'clear' | 'tight' | 'blocked' | 'unmeasured';
export type Unit = 'mm' | 'm2' | 'kg' | 'N' | 'deg' | 'kPa' | 'Nm' | 'MPa' | 'count' | 'ratio';

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
}
