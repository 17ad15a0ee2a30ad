/** The plan's own name, units, contact and notes, those of the setup at hand, and how close things may come. */
import { DEFAULT_HEIGHT_MM, requiredClearance } from '../../../checks/limits.ts';
import { LOAD_DEFAULTS } from '../../../checks/ownLimits.ts';
import type { BodyKind } from '../../../gear/bodyKinds.ts';
import type { Command } from '../../../plan/commands/index.ts';
import { type Limits, limitsSchema, type Plan, planSchema, setupSchema } from '../../../plan/schema.ts';
import type { FieldTable, Here } from '../fields/rows.ts';
import { splitPair } from './limitPairs.ts';

export const PLAN = {
  schema: planSchema,
  record: ({ plan }) => plan,
  write: (_, [field], value) => {
    if (field === 'name') return { type: 'renamePlan', name: value as string };
    if (field === 'units') return { type: 'setUnits', units: value as Plan['units'] };
    return { type: 'setNotes', [field]: value };
  },
  sections: {
    plan: [
      { as: 'words', path: 'name', label: 'Name of the plan' },
      {
        as: 'choice',
        path: 'units',
        label: 'Lengths in',
        choices: () => [
          { id: 'mm', label: 'Millimetres and kilograms' },
          { id: 'in', label: 'Feet, inches and pounds' },
        ],
      },
    ],
    /** Whom the venue may ask: printed on every sheet. */
    contact: [
      {
        as: 'words',
        path: 'contact',
        label: 'Contact, for the venue',
        lines: 3,
        placeholder: 'Name, telephone, e-mail',
      },
    ],
    notes: [{ as: 'words', path: 'note', label: 'Notes on the plan', lines: 3 }],
    revision: [{ as: 'words', path: 'revision', label: 'Revision of the sheets', placeholder: 'A' }],
    currency: [{ as: 'words', path: 'currency', label: 'Prices are in', placeholder: 'EUR' }],
  },
} satisfies FieldTable<Pick<Here, 'plan'>>;

export const SETUP = {
  schema: setupSchema,
  record: ({ setup }) => setup,
  write: ({ setupId }, [field], value) =>
    field === 'name'
      ? { type: 'renameSetup', setup: setupId, name: value as string }
      : { type: 'setNotes', setup: setupId, [field]: value },
  sections: {
    setup: [
      { as: 'words', path: 'name', label: 'Name of the setup' },
      { as: 'words', path: 'note', label: 'Notes on the setup', lines: 3 },
    ],
  },
} satisfies FieldTable<Pick<Here, 'setup' | 'setupId'>>;

/** The program's own limit for a pair of kinds, mm; null: not checked. */
export const usualMm = (a: BodyKind, b: BodyKind): number | null => requiredClearance(undefined, a, b);

const setLimits = (limits: Limits): Command => ({ type: 'setLimits', limits });

/** The user's own limit for a pair; null: not checked. Undefined: back to the usual one. */
export function setPair({ limits }: Plan, pair: string, mm: number | null | undefined): Command {
  const { [pair]: _, ...rest } = limits?.clearanceMm ?? {};
  return setLimits({ ...limits, clearanceMm: mm === undefined ? rest : { ...rest, [pair]: mm } });
}

export interface PairHere {
  readonly plan: Plan;
  /** `pedal+stand`, and what the two are called. */
  readonly pair: string;
  readonly title: string;
}
const ownMm = ({ plan, pair }: PairHere): number | null => plan.limits?.clearanceMm?.[pair] ?? null;

export const PAIR = {
  schema: limitsSchema,
  record: ({ plan }) => plan.limits ?? {},
  write: ({ plan, pair }, _, value) => setPair(plan, pair, value as number | null),
  sections: {
    pair: [
      {
        path: 'clearanceMm',
        label: ({ title }) => title,
        note: (here) => (ownMm(here) === null ? 'not checked' : undefined),
        value: ownMm,
        otherwise: ({ pair }) => {
          const kinds = splitPair(pair);
          return kinds && usualMm(kinds[0] as BodyKind, kinds[1] as BodyKind);
        },
      },
    ],
  },
} satisfies FieldTable<PairHere>;

export const LIMIT = {
  schema: limitsSchema,
  record: ({ plan }) => plan.limits ?? {},
  write: ({ plan }, [field], value) => {
    const { [field]: _, ...rest } = plan.limits ?? {};
    return setLimits(value === null ? rest : { ...rest, [field]: value });
  },
  sections: {
    heights: [
      { path: 'heightMm', label: 'Things this close in height count as meeting', otherwise: () => DEFAULT_HEIGHT_MM },
    ],
    loads: [
      {
        path: 'clampMomentNm',
        label: 'A clamp or joint holds',
        note: ({ plan }) => (plan.limits?.clampMomentNm === undefined ? 'not stated' : undefined),
        otherwise: () => LOAD_DEFAULTS.clampMomentNm,
      },
      { path: 'sagMm', label: 'A bar may sag by', otherwise: () => LOAD_DEFAULTS.sagMm },
      { path: 'tipAngleDeg', label: 'Nothing tips before', otherwise: () => LOAD_DEFAULTS.tipAngleDeg },
      { path: 'playerKg', label: 'The drummer weighs', otherwise: () => LOAD_DEFAULTS.playerKg },
    ],
  },
} satisfies FieldTable<Pick<Here, 'plan'>>;
