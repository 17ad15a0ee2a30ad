/**
 * A right-handed setup made left-handed: everything changes sides about a line that runs upstage.
 *
 * Heights, tilts, lengths and what holds what stay. The riser stays: it belongs to the venue, and other setups stand on it.
 */
import type { Draft } from 'immer';
import { tidyDeg, tidyMm } from '../numbers.ts';
import type { Item, Rack } from '../schema.ts';
import { type Rule, refuseSetup } from './rule.ts';

export interface MirrorSetup {
  readonly type: 'mirrorSetup';
  readonly setup: string;
  /** x of the line, mm; 0 is the plan's centre line. */
  readonly axisXMm: number;
}

/** An item's heading counts from facing the audience, which is along the line: it changes its sign. */
function mirrorItem(item: Draft<Item>): void {
  item.place.headingDeg = tidyDeg(-item.place.headingDeg);
  if (item.second) {
    item.second.xMm = tidyMm(-item.second.xMm);
    item.second.headingDeg = tidyDeg(-item.second.headingDeg);
  }
  if (item.legsTurnDeg !== undefined) item.legsTurnDeg = tidyDeg(-item.legsTurnDeg);
}

/** A rack's heading counts from the page's x, which is across the line; what is relative to it changes its sign. */
function mirrorRack(rack: Draft<Rack>): void {
  rack.place.headingDeg = tidyDeg(180 - rack.place.headingDeg);
  for (const leg of rack.legs) if (leg.foot) leg.foot.headingDeg = tidyDeg(-leg.foot.headingDeg);
  for (const span of rack.spans) {
    span.turnDeg = tidyDeg(-span.turnDeg);
    for (const bar of span.bars) if (bar.bend) bar.bend.side = bar.bend.side === 'left' ? 'right' : 'left';
  }
}

export const mirrorSetup: Rule<MirrorSetup> = {
  refuse: (plan, { setup }) => refuseSetup(plan, setup),
  apply(draft, { setup, axisXMm }) {
    for (const piece of Object.values(draft.setups[setup].pieces)) {
      piece.place.xMm = tidyMm(2 * axisXMm - piece.place.xMm);
      if (piece.kind === 'rack') mirrorRack(piece);
      else mirrorItem(piece);
    }
  },
};
