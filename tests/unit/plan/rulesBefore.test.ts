/** What is spared because it has not changed would have been found right: rules with the plan before say what rules without it say. */
import { produce } from 'immer';
import { expect, test } from 'vitest';
import { planProblem } from '../../../src/plan/rules.ts';
import type { Piece, Plan } from '../../../src/plan/schema.ts';
import { samplePlan } from '../../fixtures/plans.ts';

const before = samplePlan();
const ids = before.setups.straight.order;

/** Every piece hung as every other one is; on every other one; taken away; turned to another kind of piece; its rack shortened. */
function changes(): ((pieces: Record<string, Piece>, order: string[]) => void)[] {
  return ids.flatMap((id) => [
    (pieces, order) => {
      delete pieces[id];
      order.splice(order.indexOf(id), 1);
    },
    (pieces) => {
      const piece = pieces[id];
      if (piece.kind === 'rack') for (const { bars } of piece.spans) bars[0].cutLengthMm = 120;
      else piece.mount = null;
    },
    (pieces) => {
      const piece = pieces[id];
      if (piece.kind === 'rack') piece.legs[0].id = 'another';
      else if (piece.mount) piece.mount.arm = null;
    },
    ...ids.flatMap((other) => [
      (pieces: Record<string, Piece>) => {
        const [piece, from] = [pieces[id], pieces[other]];
        if (piece.kind === 'item' && from.kind === 'item')
          piece.mount = structuredClone(before.setups.straight.pieces[other] as typeof from).mount;
      },
      (pieces: Record<string, Piece>) => {
        const piece = pieces[id];
        if (piece.kind === 'item') piece.mount = { carrier: { on: 'piece', piece: other }, clamp: null, arm: null };
      },
      (pieces: Record<string, Piece>) => {
        const piece = pieces[id];
        const carrier = { on: 'socket', piece: other, socket: 0 } as const;
        if (piece.kind === 'item') piece.mount = { carrier, clamp: null, arm: 'boom-1' };
      },
    ]),
  ]);
}

test('the plan before spares work and no answer', () => {
  expect(planProblem(before)).toBeNull();
  const codes = new Set<string>();
  for (const change of changes()) {
    const after: Plan = produce(before, ({ setups: { straight } }) => change(straight.pieces, straight.order));
    const whole = planProblem(after);
    expect(planProblem(after, before)).toEqual(whole);
    if (whole) codes.add(whole.code);
  }
  expect([...codes].sort()).toEqual(['clamp_off_tube', 'mount_cycle', 'unknown_carrier', 'unknown_socket']);
});
