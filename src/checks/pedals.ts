/**
 * Bass drum pedals: each is at the hoop of a bass drum, and no drive shaft runs through the drum that it plays.
 *
 * The drum of a pedal is the one whose batter hoop is nearest; a kit without a bass drum has pedals for something else. A pedal that
 * something holds is where that is. The second pedal of a double one is clamped to nothing.
 *
 * Units: mm.
 */
import { gapValue } from '../geometry/gap.ts';
import type { Body } from '../layout/body.ts';
import type { Setup } from '../plan/schema.ts';
import { CLAMPED_MM } from './clearance.ts';
import { checkOf, code, type Measured, saysOf, type TwoPieces } from './codes.ts';

/** The pedal, then the drum. */
type Pair = Measured & TwoPieces;

export const PEDALS = checkOf('pedals', {
  word: 'Bass drum pedals',
  caution: null,
  codes: {
    pedal_off_drum: code<Pair>(
      'mm',
      'atMost',
      ({ names: [first, second], value }) =>
        `${first} is ${value} from the hoop of ${second}: bring it to the hoop, where its clamp holds it.`,
    ),
    shaft_through_drum: code<Pair>(
      'mm',
      'atMost',
      ({ names: [first, second] }) =>
        `The drive shaft of ${first} runs through ${second}: move its second pedal to the other side, or back.`,
    ),
  },
});
const says = saysOf(PEDALS);

/** A shaft starts at the tower, which may stand this far into the hoop's plane. Common practice, no source. */
const INTO_HOOP_MM = 40;

/** The length of a segment within a convex polygon, x0 y0 x1 y1 ... counter-clockwise. Source: Cyrus and Beck (1978), clipping by half-planes. */
function lengthWithin(x0: number, y0: number, x1: number, y1: number, points: readonly number[]): number {
  let [from, to] = [0, 1];
  for (let i = 0; i < points.length; i += 2) {
    const [ax, ay] = [points[i], points[i + 1]];
    const [bx, by] = [points[(i + 2) % points.length], points[(i + 3) % points.length]];
    // Above 0 to the left of the edge: within.
    const at = (x: number, y: number) => (bx - ax) * (y - ay) - (by - ay) * (x - ax);
    const [start, end] = [at(x0, y0), at(x1, y1)];
    if (start < 0 && end < 0) return 0;
    if (start < 0) from = Math.max(from, start / (start - end));
    else if (end < 0) to = Math.min(to, start / (start - end));
  }
  return Math.max(0, to - from) * Math.hypot(x1 - x0, y1 - y0);
}

function shaftFinding(shaft: Body, drums: readonly Body[]) {
  const { core } = shaft.shape;
  if (core.kind !== 'segment') return null;
  let worst: { readonly drum: Body; readonly length: number } | null = null;
  for (const drum of drums) {
    if (drum.shape.core.kind !== 'polygon' || drum.z0 >= shaft.z1 || drum.z1 <= shaft.z0) continue;
    const length = lengthWithin(core.x0, core.y0, core.x1, core.y1, drum.shape.core.points);
    if (length > INTO_HOOP_MM && (worst === null || length > worst.length)) worst = { drum, length };
  }
  return (
    worst &&
    says('shaft_through_drum', {
      state: 'blocked',
      pieces: [shaft.piece, worst.drum.piece],
      bodies: [shaft.id, worst.drum.id],
      value: worst.length,
      limit: INTO_HOOP_MM,
      source: "Legroom's own default",
      at: [(core.x0 + core.x1) / 2, (core.y0 + core.y1) / 2],
    })
  );
}

function pedalFinding(tower: Body, hoops: readonly Body[]) {
  let nearest: { readonly hoop: Body; readonly away: number } | null = null;
  for (const hoop of hoops) {
    const away = gapValue(tower.shape, hoop.shape);
    if (nearest === null || away < nearest.away) nearest = { hoop, away };
  }
  if (nearest === null || nearest.away <= CLAMPED_MM) return null;
  const { core } = tower.shape;
  return says('pedal_off_drum', {
    state: 'blocked',
    pieces: [tower.piece, nearest.hoop.piece],
    bodies: [tower.id, nearest.hoop.id],
    value: nearest.away,
    limit: CLAMPED_MM,
    source: "Legroom's own default",
    at: core.kind === 'polygon' ? [core.points[0], core.points[1]] : null,
  });
}

export function pedals({ pieces }: Setup, bodies: readonly Body[]): ReturnType<typeof says>[] {
  const isHeld = (id: string) => {
    const piece = pieces[id];
    return piece?.kind === 'item' && piece.mount !== null;
  };
  const drums = bodies.filter(({ kind, part }) => kind === 'bassDrum' && part !== 'hoop');
  const hoops = bodies.filter(({ kind, part }) => kind === 'bassDrum' && part === 'hoop');
  if (hoops.length === 0) return [];
  const found: ReturnType<typeof says>[] = [];
  for (const body of bodies) {
    const one =
      body.kind === 'shaft'
        ? shaftFinding(body, drums)
        : body.kind === 'pedal' && body.part === 'tower' && !isHeld(body.piece)
          ? pedalFinding(body, hoops)
          : null;
    if (one) found.push(one);
  }
  return found;
}
