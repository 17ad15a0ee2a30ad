/**
 * The racks of a starter kit: bars that pass outside of what stands at either side, on legs whose feet are clear of everybody else's.
 *
 * A side rack starts beside the bass drum's front and turns inwards as far as its bar stays BAR_CLEAR_MM outside of all it passes; a
 * front rack has a bar over the bass drum, and a lower one along the floor toms.
 *
 * Units: mm, degrees.
 */
import { gearOf } from '../../gear/catalogue.ts';
import type { GearOf } from '../../gear/schema.ts';
import { lineLength, pointAlong } from '../../geometry/arcsLine.ts';
import { nearestAlong } from '../../geometry/nearestAlong.ts';
import { bendOfTube } from '../../plan/bow.ts';
import { rackFrame } from '../../plan/rackFrame.ts';
import type { Bar, Bend, Leg, Rack } from '../../plan/schema.ts';
import { MM_PER_IN } from '../../units.ts';
import { hang } from './hang.ts';
import { HAT_STAND, type Playing } from './playing.ts';
import { putBoomStand } from './stands.ts';
import type { Trial } from './trial.ts';
import type { StarterWish } from './wish.ts';

/** Between a bar's tube and a drum that hangs from it: room for clamp and arm. */
const BAR_CLEAR_MM = 62;
/** Between a bar and the tube of a hi-hat stand. */
const HAT_CLEAR_MM = 110;
const BAR_RADIUS_MM = 19;
const SIDE_BAR_MM = 380;
const OVERHANG_MM = 60;
/** Under three floor toms a rack wants wider feet. */
const WIDE_FOOT_IN = 24;

/** Throws: Error where the catalogue has no such entry of the kind. */
function entryOf<K extends 'tube' | 'foot'>(kind: K, id: string): GearOf<K> {
  const gear = gearOf({}, id);
  if (gear?.kind !== kind) throw new Error(`The catalogue has no ${kind} "${id}".`);
  return gear as GearOf<K>;
}

function bar(id: string, inches: number, heightMm: number, side: Bend['side'] | null): Bar {
  const tube = entryOf('tube', `tube-${side ? 'curved' : 'straight'}-${inches}in`);
  const bend = side && bendOfTube(tube, side);
  return { id, tube: tube.id, cutLengthMm: tube.cutLengthMm, bend, overhangMm: OVERHANG_MM, heightMm };
}

function leg(id: string, inches: number, footInches: number, headingDeg: number): Leg {
  const tube = entryOf('tube', `upright-${inches}in`);
  const foot = entryOf('foot', `t-foot-${footInches}in`);
  return {
    id,
    tube: tube.id,
    lengthMm: tube.cutLengthMm,
    foot: { gear: foot.id, lengthMm: foot.lengthMm, headingDeg },
  };
}

interface Keep {
  readonly x: number;
  readonly y: number;
  readonly away: number;
}

/** Whether a bar passes outside of all of these: `out` is -1 where outside is at lower x. */
function passes(rack: Rack, barId: string, keeps: readonly Keep[], out: number): boolean {
  const line = rackFrame(rack).bars.find(({ id }) => id === barId)?.line;
  if (!line) return false;
  return keeps.every(({ x, y, away }) => {
    const s = nearestAlong(line, x, y);
    const near = pointAlong(line, s);
    if (Math.hypot(near.x - x, near.y - y) < away) return false;
    // At an end what counts is only the distance.
    return s <= 1 || s >= lineLength(line) - 1 || (near.x - x) * out > 0;
  });
}

function sideRack(
  id: string,
  name: string,
  x: number,
  y: number,
  headingDeg: number,
  inches: number,
  curve: 'left' | 'right' | null,
  foot = 20,
): Rack {
  return {
    kind: 'rack',
    id,
    name,
    place: { xMm: Math.round(x), yMm: Math.round(y), headingDeg },
    legs: [leg('leg-1', 20, foot, 60), leg('leg-2', 20, foot, 90)],
    spans: [{ turnDeg: 0, farOverhangMm: OVERHANG_MM, bars: [bar('bar-1', inches, SIDE_BAR_MM, curve)] }],
  };
}

const FOOT_TURNS_DEG = [90, 60, 120, 75, 105, 30, 150, 0] as const;

const withFoot = (rack: Rack, which: number, headingDeg: number): Rack => ({
  ...rack,
  legs: rack.legs.map((each, k) => (k === which && each.foot ? { ...each, foot: { ...each.foot, headingDeg } } : each)),
});

/** Puts in the first rack with which nothing is wrong, its feet turned one after another so that they are clear, or the best of them. */
function putRack(kit: Trial, racks: readonly Rack[]): number {
  let best: { readonly rack: Rack; readonly wrong: number } | null = null;
  for (const rack of racks) {
    let wrong = kit.best([[rack]]);
    for (let k = 0; k < rack.legs.length && wrong > 0; k++) {
      const turned = kit.piece(rack.id) as Rack;
      wrong = kit.best(FOOT_TURNS_DEG.map((deg) => withFoot(turned, k, deg)).map((one) => [one]));
    }
    if (best === null || wrong < best.wrong) best = { rack: kit.piece(rack.id) as Rack, wrong };
    if (wrong === 0) return 0;
  }
  if (!best) return 0;
  kit.put(best.rack);
  return best.wrong;
}

function keepsOf(kit: Trial, { floorToms }: Playing): Keep[] {
  return floorToms.map((id) => {
    const { xMm, yMm } = kit.item(id).place;
    const body = kit.layout.bodies.find(({ piece, part }) => piece === id && part === 'shell');
    return { x: xMm, y: yMm, away: (body?.shape.radius ?? 220) + BAR_CLEAR_MM + BAR_RADIUS_MM };
  });
}

function putSideRacks(kit: Trial, wish: StarterWish, playing: Playing): string[] {
  const { bass } = playing;
  const curved = wish.base === 'curved';
  const keeps = keepsOf(kit, playing);
  const inches = wish.down === 3 ? 60 : wish.down === 2 ? 54 : 48;
  const right: Rack[] = [];
  for (const [dx, dy] of [
    [-75, -110],
    [-75, -40],
    [-130, -110],
    [-130, 40],
    [-190, 40],
  ] as const) {
    for (let deg = 84; deg < 140; deg++) {
      const rack = sideRack(
        'rack-right',
        'Side rack, floor toms',
        bass.x - bass.r + dx,
        bass.frontY + dy,
        deg,
        inches,
        curved ? 'left' : null,
        wish.down === 3 ? WIDE_FOOT_IN : 20,
      );
      if (!passes(rack, 'bar-1', keeps, -1)) continue;
      right.push(rack);
      break;
    }
  }
  putRack(kit, right);
  const hat = kit.item(HAT_STAND).place;
  const hatKeep = [{ x: hat.xMm, y: hat.yMm, away: HAT_CLEAR_MM }];
  const left: Rack[] = [];
  for (const size of [48, 54, 60])
    for (const [dx, dy] of [
      [130, -110],
      [180, -110],
      [90, -60],
      [240, -110],
      [240, -30],
      [300, -60],
      [330, 20],
      [380, -60],
    ] as const) {
      for (let deg = 92; deg > 30; deg--) {
        const rack = sideRack(
          'rack-left',
          'Side rack, hi-hat',
          bass.x + bass.r + dx,
          bass.frontY + dy,
          deg,
          size,
          curved ? 'right' : null,
        );
        if (!passes(rack, 'bar-1', hatKeep, 1)) continue;
        left.push(rack);
        break;
      }
    }
  if (putRack(kit, left) > 0) {
    // Its feet and the hi-hat stand's legs give way to each other.
    const stand = kit.item(HAT_STAND);
    kit.best([0, 20, -20, 40, -40, 60].map((legsTurnDeg) => [{ ...stand, legsTurnDeg }]));
    putRack(kit, [kit.piece('rack-left') as Rack]);
  }
  return ['rack-right', 'rack-left'];
}

function putFrontRack(kit: Trial, wish: StarterWish, playing: Playing): string[] {
  const { bass } = playing;
  const keeps = keepsOf(kit, playing);
  const heights = playing.toms.map((id) => kit.item(id).place.heightMm ?? 0);
  const high = Math.round(Math.max(...heights) - 140);
  const racks: Rack[] = [];
  const tomsFront = Math.min(...playing.toms.map((id) => kit.item(id).place.yMm)) - 290;
  for (const [out, dy] of [
    [120, -90],
    [120, -130],
    [170, -90],
    [60, -110],
  ] as const) {
    const frontY = Math.min(bass.frontY + dy, tomsFront);
    const endX = bass.x - bass.r - out;
    const firstX = endX + 54 * MM_PER_IN - 2 * OVERHANG_MM;
    for (let turnDeg = -60; turnDeg > -110; turnDeg--) {
      const rack: Rack = {
        kind: 'rack',
        id: 'rack',
        name: 'Front rack',
        place: { xMm: Math.round(firstX), yMm: Math.round(frontY), headingDeg: 180 },
        legs: [leg('leg-1', 36, 20, 90), leg('leg-2', 36, 20, 90), leg('leg-3', 20, 16, 0)],
        spans: [
          { turnDeg: 0, farOverhangMm: OVERHANG_MM, bars: [bar('bar-1', 54, high, null)] },
          { turnDeg, farOverhangMm: OVERHANG_MM, bars: [bar('bar-2', wish.down === 1 ? 48 : 60, SIDE_BAR_MM, null)] },
        ],
      };
      // The wider the turn, the more the lower bar comes in.
      if (passes(rack, 'bar-2', keeps, -1)) racks.push(rack);
      else if (racks.length > 0) break;
    }
  }
  putRack(kit, racks.length > 0 ? [racks[racks.length - 1], ...racks.slice(-3, -1)] : []);
  return ['rack'];
}

export function putRacks(kit: Trial, wish: StarterWish, playing: Playing): void {
  const racks = wish.base === 'front' ? putFrontRack(kit, wish, playing) : putSideRacks(kit, wish, playing);
  const nearest = (id: string): string[] => {
    const { xMm, yMm } = kit.item(id).place;
    const far = (rack: string) =>
      Math.min(
        ...(kit.layout.racks[rack]?.frame.bars ?? []).map(({ line }) => {
          const { x, y } = pointAlong(line, nearestAlong(line, xMm, yMm));
          return Math.hypot(x - xMm, y - yMm);
        }),
      );
    return [...racks].filter((rack) => kit.piece(rack)).sort((a, b) => far(a) - far(b));
  };
  for (const id of [...playing.toms, ...playing.floorToms]) hang(kit, id, nearest(id));
  for (const id of playing.cymbals) if (!hang(kit, id, nearest(id))) putBoomStand(kit, id);
}
