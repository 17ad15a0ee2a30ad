/**
 * What must not grow with the square: checks on a riser of many modules, the mark sheet and the plot of many pieces.
 *
 *   npm run bench -- many
 */
import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { runChecks } from '../../src/checks/run.ts';
import { sheetFonts } from '../../src/cli/fonts.ts';
import { layoutSetup } from '../../src/layout/layout.ts';
import { readPlan } from '../../src/plan/read.ts';
import type { Piece, Plan } from '../../src/plan/schema.ts';
import { makeSheets } from '../../src/sheets/kinds.ts';
import { checksum, row, time } from './timing.ts';

function sample(name: string): Plan {
  const file = join(resolve(import.meta.dirname, '../../samples'), `${name}.legroom.json`);
  const read = readPlan(readFileSync(file, 'utf8'));
  if (!read.ok) throw new Error(read.problem.sentence);
  return read.plan;
}

/** The kit amid a ring of modules, each turned by its place. */
function onRing(plan: Plan, n: number): Plan {
  const riser = Object.values(plan.risers)[0];
  const modules = Array.from({ length: n }, (_, k) => {
    const a = (2 * Math.PI * k) / n;
    const headingDeg = (360 * k) / n;
    return { ...riser.modules[0], id: `m${k}`, xMm: n * 260 * Math.cos(a), yMm: n * 260 * Math.sin(a), headingDeg };
  });
  return { ...plan, risers: { [riser.id]: { ...riser, modules } } };
}

const kit = sample('one-up-two-down');
for (const n of [6, 24, 100]) {
  const run = () => {
    // A riser of its own each time: nothing of it is kept.
    const plan = onRing(kit, n);
    return runChecks(plan, plan.order[0], layoutSetup(plan, plan.order[0])).findings.length;
  };
  console.log(row('layout and checks, modules in a ring', n, time(run, 7)));
}

/** The pieces of a setup that nothing else holds, again and again beside each other. */
function strewn(plan: Plan, n: number): Plan {
  const [id] = plan.order;
  const setup = plan.setups[id];
  const free = setup.order
    .map((one) => setup.pieces[one])
    .filter((piece) => piece.kind === 'item' && JSON.stringify(piece).includes('"mount":null'));
  const pieces: Record<string, Piece> = {};
  for (let k = 0; k < n; k++) {
    const like = free[k % free.length];
    const copy = Math.floor(k / free.length);
    const place = {
      ...like.place,
      xMm: like.place.xMm + (copy % 4) * 5000,
      yMm: like.place.yMm + Math.floor(copy / 4) * 4000,
    };
    pieces[`p${k}`] = { ...like, id: `p${k}`, place };
  }
  return { ...plan, setups: { ...plan.setups, [id]: { ...setup, order: Object.keys(pieces), pieces } } };
}

const fonts = sheetFonts();
const many = sample('sixty-pieces');
for (const n of [64, 128, 256]) {
  const plan = strewn(many, n);
  const [setupId] = plan.order;
  const layout = layoutSetup(plan, setupId);
  const source = { plan, setupId, layout, checked: runChecks(plan, setupId, layout) };
  for (const kind of ['marks', 'venue'] as const) {
    const make = () => makeSheets(kind, source, { paper: 'a4', date: '2026-03-14', fonts }).length;
    console.log(row(`${kind} sheet`, n, time(make, 3)));
  }
}
console.log(`checksum ${checksum().toExponential(6)}`);
