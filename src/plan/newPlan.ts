/** A plan to begin with: one setup with nothing in it, on a riser of an ordinary size. */
import { PLAN_FORMAT, PLAN_VERSION, type Plan, type Riser } from './schema.ts';

export const NEW_EDGE_MARGIN_MM = 50;

/**
 * Modules 1 m wide side by side, their middle on the centre line. The height is one often met (common practice, no source); what it
 * carries is on its own plate, so the rating is not known here.
 */
export function newRiser(wideM: number, deepM: number): Riser {
  return {
    id: 'riser-1',
    name: `Riser ${wideM} x ${deepM} m`,
    heightMm: 400,
    ratedKPa: null,
    edgeMarginMm: NEW_EDGE_MARGIN_MM,
    modules: Array.from({ length: wideM }, (_, k) => ({
      id: `module-${k + 1}`,
      xMm: (k - (wideM - 1) / 2) * 1000,
      yMm: 0,
      widthMm: 1000,
      depthMm: deepM * 1000,
      headingDeg: 0,
    })),
  };
}

/** The same name gives the same plan, on every machine and day. Its riser's size is one often met (common practice, no source). */
export function newPlan(name: string, units: Plan['units'] = 'mm'): Plan {
  const riser = newRiser(3, 2);
  return {
    format: PLAN_FORMAT,
    version: PLAN_VERSION,
    name,
    units,
    setups: { 'setup-1': { id: 'setup-1', name: 'Setup 1', riser: riser.id, pieces: {}, order: [] } },
    order: ['setup-1'],
    risers: { [riser.id]: riser },
    gear: {},
  };
}
