/** A plan to begin with: one setup with nothing in it, on a riser of an ordinary size. */
import { PLAN_FORMAT, PLAN_VERSION, type Plan, type Riser } from './schema.ts';

/**
 * Three modules of 1 x 2 m side by side: 3 m wide, 2 m deep, its middle on the centre line. A size often met, as is the
 * height (common practice, no source); what it carries is on its own plate, so the rating is not known here.
 */
function usualRiser(): Riser {
  return {
    id: 'riser-1',
    name: 'Riser 3 x 2 m',
    heightMm: 400,
    ratedKPa: null,
    edgeMarginMm: 50,
    modules: [-1000, 0, 1000].map((xMm, i) => ({
      id: `module-${i + 1}`,
      xMm,
      yMm: 0,
      widthMm: 1000,
      depthMm: 2000,
      headingDeg: 0,
    })),
  };
}

/** The same name gives the same plan, on every machine and day. */
export function newPlan(name: string, units: Plan['units'] = 'mm'): Plan {
  const riser = usualRiser();
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
