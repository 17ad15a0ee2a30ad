/** What pulling a handle to a point means, as one command. Pure: the plan as it was when the pull began, and a point. */

import { rackRoom } from '../../../checks/barRoom.ts';
import { slideRange } from '../../../checks/clampSlide.ts';
import { SECOND_PEDAL } from '../../../gear/kinds.ts';
import { nearestAlong } from '../../../geometry/nearestAlong.ts';
import type { Layout } from '../../../layout/layout.ts';
import type { Command } from '../../../plan/commands/index.ts';
import { tidyDeg, tidyMm } from '../../../plan/numbers.ts';
import type { Item, Plan, Rack, Setup } from '../../../plan/schema.ts';
import { toDegrees, toRadians } from '../../../units.ts';
import type { Handle } from '../handles.ts';
import { stepsOf } from '../steps.ts';
import type { Point } from '../view.ts';
import { movedCommand } from './carry.ts';

export interface Pull {
  readonly plan: Plan;
  readonly setup: Setup;
  readonly layout: Layout;
  readonly handle: Handle;
  /** What the piece turns about, mm. */
  readonly pivot: Point;
  readonly to: Point;
  readonly carries: boolean;
  /** Turn in whole steps. */
  readonly steps: boolean;
}

/** Turning steps with the grid, and without: a degree is as fine as anybody sets a drum. */
const COARSE_DEG = 5;
const FINE_DEG = 0.5;

const turnAbout = ({ x, y }: Point, turnDeg: number) => ({ turnDeg, aboutXMm: x, aboutYMm: y, dxMm: 0, dyMm: 0 });
const bearing = (from: Point, to: Point) => toDegrees(Math.atan2(to.y - from.y, to.x - from.x));
const stepped = (degrees: number, steps: boolean) => {
  const step = steps ? COARSE_DEG : FINE_DEG;
  return tidyDeg(Math.round(degrees / step) * step);
};

/** Null when the handle's part is not there any more. */
export function pullCommand(pull: Pull): Command | null {
  const { setup, handle, pivot, to, carries, steps } = pull;
  const piece = setup.pieces[handle.piece];
  switch (handle.kind) {
    case 'turn': {
      const turned = bearing(pivot, to) - bearing(pivot, handle);
      const { headingDeg } = piece.place;
      const turnDeg = stepped(headingDeg + turned, steps) - headingDeg;
      return movedCommand(pull, [piece.id], carries, turnAbout(pivot, turnDeg));
    }
    case 'leg':
      return pulledLeg(pull, piece as Rack, handle.leg);
    case 'foot': {
      const leg = (piece as Rack).legs.find(({ id }) => id === handle.leg);
      if (!leg?.foot) return null;
      const headingDeg = stepped(bearing(handle.about, to) - piece.place.headingDeg, steps);
      const foot = { ...leg.foot, headingDeg };
      return { type: 'setLeg', setup: setup.id, rack: piece.id, leg: leg.id, set: { foot } };
    }
    case 'clamp':
      return piece.kind === 'item' ? slidClamp(pull, piece) : null;
    case 'second': {
      if (piece.kind !== 'item') return null;
      const angle = -toRadians(piece.place.headingDeg);
      const x = to.x - piece.place.xMm;
      const y = to.y - piece.place.yMm;
      const second = {
        xMm: tidyMm(x * Math.cos(angle) - y * Math.sin(angle)),
        yMm: tidyMm(x * Math.sin(angle) + y * Math.cos(angle)),
        headingDeg: (piece.second ?? SECOND_PEDAL).headingDeg,
      };
      return { type: 'setPiece', setup: setup.id, piece: piece.id, set: { second } };
    }
    case 'module':
      return null;
  }
}

/**
 * The clamp slides, in steps, to the place on its tube nearest to the pointer, and stops at the clamps and joints beside it. The piece
 * stays where the player has it; its arm follows.
 */
function slidClamp({ plan, setup, layout, to, steps }: Pull, item: Item): Command | null {
  const { mount } = item;
  if (mount?.carrier.on !== 'bar') return null;
  const { carrier } = mount;
  const frame = layout.racks[carrier.rack]?.frame.bars.find(({ id }) => id === carrier.bar);
  const room = rackRoom(plan, setup, layout).bars.find((bar) => bar.piece === carrier.rack && bar.bar === carrier.bar);
  if (!frame || !room) return null;
  const own = room.clamps.find(({ piece, joint, atMm }) => piece === item.id && !joint && atMm === carrier.atMm);
  const others = room.clamps.filter((clamp) => clamp !== own);
  const [low, high] = slideRange(room.length, others, carrier.atMm, own?.widthMm ?? 0);
  const { coarseMm, fineMm } = stepsOf(plan.units);
  const step = steps ? coarseMm : fineMm;
  const wanted = Math.round(nearestAlong(frame.line, to.x, to.y) / step) * step;
  const atMm = tidyMm(Math.min(Math.max(wanted, low), high));
  const set = { mount: { ...mount, carrier: { ...carrier, atMm } } };
  return { type: 'setPiece', setup: setup.id, piece: item.id, set };
}

/** The rack turns about its other leg; with "carry along", what hangs on a rack of two legs turns with it. */
function pulledLeg(pull: Pull, rack: Rack, legId: string): Command | null {
  const { setup, layout, to, carries } = pull;
  const legs = layout.racks[rack.id]?.legs ?? [];
  const at = legs.findIndex(({ id }) => id === legId);
  if (at < 0) return null;
  const turn: Command = {
    type: 'turnRackLeg',
    setup: setup.id,
    rack: rack.id,
    leg: legId,
    xMm: tidyMm(to.x),
    yMm: tidyMm(to.y),
  };
  if (!carries || legs.length !== 2) return turn;
  const other = legs[1 - at];
  const turnDeg = bearing(other, to) - bearing(other, legs[at]);
  const moved = movedCommand(pull, [rack.id], true, turnAbout(other, turnDeg));
  if (moved === null) return turn;
  const { [rack.id]: _, ...places } = moved.places;
  if (Object.keys(places).length === 0) return turn;
  return { type: 'many', commands: [turn, { ...moved, places }] };
}
