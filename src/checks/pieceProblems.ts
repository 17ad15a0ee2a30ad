/** What layout could not do, and drive shafts that are too short or too long, as findings. */
import { gearOf } from '../gear/catalogue.ts';
import { shaftEnds } from '../layout/floorGear.ts';
import type { Layout, LayoutProblem } from '../layout/layout.ts';
import type { Plan, Setup } from '../plan/schema.ts';
import type { Finding } from './finding.ts';

function problemFinding(problem: LayoutProblem): Finding {
  const base = { pieces: [problem.piece], bodies: [], limit: null, unit: 'mm' as const, source: 'the plan' };
  if (problem.code === 'unknown_gear' || problem.code === 'not_placeable')
    return { ...base, check: 'gear', code: problem.code, state: 'unmeasured', value: null, at: null };
  return {
    ...base,
    check: 'rack',
    code: problem.code,
    state: 'blocked',
    bodies: [`${problem.piece}/${problem.bar}`],
    value: problem.missingMm,
    limit: problem.missingMm === null ? null : 0,
    at: problem.at,
  };
}

/** The distance a double pedal's shaft has to span against the lengths it telescopes to. */
function shaftFindings(plan: Plan, setup: Setup, layout: Layout): Finding[] {
  const findings: Finding[] = [];
  for (const body of layout.bodies) {
    if (body.kind !== 'shaft') continue;
    const item = setup.pieces[body.piece];
    const gear = item?.kind === 'item' ? gearOf(plan.gear, item.gear) : undefined;
    if (item?.kind !== 'item' || gear?.kind !== 'pedal' || !gear.shaft) continue;
    const [x0, y0, x1, y1] = shaftEnds(gear, item);
    const length = Math.hypot(x1 - x0, y1 - y0);
    const [low, high] = gear.shaft.lengthMm;
    const short = length > high;
    if (length >= low && !short) continue;
    const { core } = body.shape;
    findings.push({
      check: 'driveShaft',
      code: short ? 'shaft_too_short' : 'shaft_too_long',
      state: 'blocked',
      pieces: [item.id],
      bodies: [body.id],
      value: length,
      limit: short ? high : low,
      unit: 'mm',
      source: 'the pedal in the catalogue',
      at: core.kind === 'segment' ? [(core.x0 + core.x1) / 2, (core.y0 + core.y1) / 2] : null,
    });
  }
  return findings;
}

export function pieceProblems(plan: Plan, setup: Setup, layout: Layout): Finding[] {
  return [...layout.problems.map(problemFinding), ...shaftFindings(plan, setup, layout)];
}
