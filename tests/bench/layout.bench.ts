/**
 * Layout and all checks of the sample with sixty pieces: everything from nothing, one dragged rack, one dragged cymbal, and each
 * part of it alone. The aim is 2 ms for a frame of a drag.
 *
 *   npm run bench -- layout
 */
import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { pairReadings } from '../../src/checks/clearance.ts';
import { type Readings, readingsOf } from '../../src/checks/readings.ts';
import { runChecks } from '../../src/checks/run.ts';
import { WAY_IN_MM, wayIn } from '../../src/checks/wayIn.ts';
import { layoutSetup } from '../../src/layout/layout.ts';
import { readPlan } from '../../src/plan/read.ts';
import type { Plan } from '../../src/plan/schema.ts';
import { checksum, row, time } from './timing.ts';

const file = join(resolve(import.meta.dirname, '../../samples'), 'sixty-pieces.legroom.json');
const read = readPlan(readFileSync(file, 'utf8'));
if (!read.ok) throw new Error(read.problem.sentence);
const { plan } = read;
const [id] = plan.order;
const setup = plan.setups[id];
const n = setup.order.length;

/** A plan in which some pieces are new objects a little farther on, as a drag leaves them; the rest stay the same objects. */
let step = 0;
function dragged(ids: readonly string[]): Plan {
  step = (step + 1) % 100;
  const pieces = { ...setup.pieces };
  for (const each of ids) {
    const piece = pieces[each];
    pieces[each] = { ...piece, place: { ...piece.place, xMm: piece.place.xMm + step / 100 } };
  }
  return { ...plan, setups: { ...plan.setups, [id]: { ...setup, pieces } } };
}

const rack = setup.order.find((each) => setup.pieces[each].kind === 'rack');
const cymbal = setup.order.find((each) => {
  const piece = setup.pieces[each];
  return piece.kind === 'item' && piece.gear.startsWith('crash');
});
if (!rack || !cymbal) throw new Error('The sample has a rack and a crash.');

/** Asks for every reading but the best poses, which are searched for. */
const asked = (r: Readings): number =>
  (r.shadowArea ?? 0) +
  (r.floorHullArea ?? 0) +
  (r.riserMargin ?? 0) +
  (r.overhang ?? 0) +
  r.feetOnFloor +
  [r.extent, r.floorExtent, r.smallestRectangle, r.floorRectangle].reduce((sum, each) => sum + (each?.width ?? 0), 0);

const layoutOf = (p: Plan) => layoutSetup(p, id);
const both = (p: Plan) => {
  const layout = layoutOf(p);
  return runChecks(p, id, layout).findings.length + layout.bodies.length;
};
const layout = layoutOf(plan);
const kit = layout.bodies;
console.log(`${n} pieces, ${kit.length} bodies`);
console.log(
  row(
    'layout and checks, all new',
    n,
    time(() => both(dragged(setup.order))),
  ),
);
console.log(
  row(
    'layout and checks, one rack moved',
    n,
    time(() => both(dragged([rack]))),
  ),
);
console.log(
  row(
    'the same, every reading asked for',
    n,
    time(() => {
      const moved = dragged([rack]);
      const layout = layoutOf(moved);
      const { findings, readings } = runChecks(moved, id, layout);
      return findings.length + asked(readings);
    }),
  ),
);
console.log(
  row(
    'layout and checks, one cymbal moved',
    n,
    time(() => both(dragged([cymbal]))),
  ),
);
console.log(
  row(
    'layout alone, all new',
    n,
    time(() => layoutOf(dragged(setup.order)).bodies.length),
  ),
);
console.log(
  row(
    'layout alone, one rack moved',
    n,
    time(() => layoutOf(dragged([rack])).bodies.length),
  ),
);
console.log(
  row(
    'checks alone',
    n,
    time(() => runChecks(plan, id, layout).findings.length),
  ),
);
console.log(
  row(
    '  pairs',
    n,
    time(() => pairReadings(plan, setup, kit).length),
  ),
);
console.log(
  row(
    '  readings',
    n,
    time(() => asked(readingsOf(layout))),
  ),
);
console.log(
  row(
    '  way in, below its limit',
    n,
    time(() => wayIn(kit, WAY_IN_MM)?.width ?? 0),
  ),
);
console.log(
  row(
    'way in, its width (when asked)',
    n,
    time(() => wayIn(kit)?.width ?? 0),
  ),
);
console.log(`checksum ${checksum().toExponential(6)}`);
