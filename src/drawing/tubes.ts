/**
 * Racks, stands, arms and their like: tubes, drawn from the layout's bodies, with end caps and clamps.
 *
 * A body's round end stands for a flat one with a plug in it: a line across the tube marks where the tube itself ends.
 */
import { movePoint } from '../geometry/frame.ts';
import { unionOutline } from '../geometry/loops.ts';
import type { Swept } from '../geometry/shapes.ts';
import type { Body } from '../layout/body.ts';
import type { BarLayout } from '../layout/racks.ts';
import {
  type Layer,
  lineMark,
  type Mark,
  polygonMark,
  type Style,
  style,
  THIN,
  type Tint,
  WIDE,
} from './displayList.ts';
import { outlineMarks } from './outline.ts';

/** Heights where the tint changes, mm above the deck: about the knee, the seat's top with thighs, and a drum's top. */
export const HEIGHT_BANDS_MM = [150, 520, 850] as const;

export function tintOfHeight(zMm: number): Tint {
  const [low, middle, high] = HEIGHT_BANDS_MM;
  if (zMm <= low) return 'ground';
  if (zMm <= middle) return 'low';
  return zMm <= high ? 'middle' : 'high';
}

export const LAYER_OF_BODY: Readonly<Record<Body['kind'], Layer>> = {
  bassDrum: 'drums',
  snare: 'drums',
  tom: 'drums',
  floorTom: 'drums',
  cymbal: 'cymbals',
  pedal: 'pedals',
  shaft: 'pedals',
  throne: 'throne',
  stand: 'stands',
  leg: 'racks',
  foot: 'feet',
  bar: 'racks',
  arm: 'mounts',
  link: 'mounts',
  spur: 'drums',
  drummer: 'throne',
  stageItem: 'stage',
};

/** How a body is drawn: wide where it stands on the deck, thin where it hangs above, tinted by its height. */
export function bodyStyle(body: Body, pieceName: string): Style {
  return style(LAYER_OF_BODY[body.kind], {
    line: body.touchesFloor || body.z0 <= 0 ? WIDE : THIN,
    tint: tintOfHeight(body.z1),
    zMm: body.z1,
    pieceId: body.piece,
    part: body.id,
    title: body.label && body.label !== pieceName ? `${pieceName}: ${body.label}` : pieceName,
    covered: 'dashed',
  });
}

/** Ends of a tube's centre line with the way it points there, out of the tube. None for discs and polygons. */
function tubeEnds({ core }: Swept): { x: number; y: number; out: number }[] {
  if (core.kind === 'segment') {
    const out = Math.atan2(core.y1 - core.y0, core.x1 - core.x0);
    return [
      { x: core.x0, y: core.y0, out: out + Math.PI },
      { x: core.x1, y: core.y1, out },
    ];
  }
  if (core.kind !== 'arc') return [];
  const end = core.start + core.sweep;
  return [
    {
      x: core.cx + core.r * Math.cos(core.start),
      y: core.cy + core.r * Math.sin(core.start),
      out: core.start - Math.PI / 2,
    },
    { x: core.cx + core.r * Math.cos(end), y: core.cy + core.r * Math.sin(end), out: end + Math.PI / 2 },
  ];
}

/** A line across a tube that runs along an angle. */
function acrossMark(s: Style, x: number, y: number, alongRad: number, r: number): Mark {
  const motion = { angle: alongRad, dx: x, dy: y };
  return lineMark({ ...s, tint: null, covered: 'unseen' }, ...movePoint(motion, 0, -r), ...movePoint(motion, 0, r));
}

/** A tube: its outline, and a line across each end that is no other body's. */
export function tubeMarks(body: Body, s: Style): Mark[] {
  const marks = outlineMarks(body.shape, s);
  const r = body.shape.radius;
  for (const { x, y, out } of tubeEnds(body.shape)) {
    marks.push(acrossMark({ ...s, line: THIN }, x, y, out, r));
  }
  return marks;
}

/** A clamp round a tube: its width along the tube, a cheek beyond the tube on each side. */
export function clampMark(s: Style, x: number, y: number, alongRad: number, widthMm: number, tubeMm: number): Mark {
  const w = widthMm / 2;
  const d = tubeMm / 2 + 9;
  const motion = { angle: alongRad, dx: x, dy: y };
  const corners = [
    [-w, -d],
    [w, -d],
    [w, d],
    [-w, d],
  ].flatMap(([px, py]) => movePoint(motion, px, py));
  return polygonMark({ ...s, line: THIN }, corners);
}

/** Bodies that are one thing in several stretches (a tilted arm in slices of height), drawn as one outline. */
export function mergedMarks(bodies: readonly Body[], name: string, part: string): Mark[] {
  if (bodies.length === 0) return [];
  const top = bodies.reduce((most, body) => (body.z1 > most.z1 ? body : most));
  const s = { ...bodyStyle(top, name), part };
  const loops = unionOutline(bodies.map((body) => body.shape));
  return loops.length === 0 ? [] : [{ ...s, kind: 'path', chains: loops.map((pieces) => ({ pieces, closed: true })) }];
}

/** Width of the clamp that holds a bar to an upright, along the bar: common practice, no source. */
const CROSS_CLAMP_MM = 62;

/** A bar as one tube from end to end, with a line across each end and a clamp at each upright it passes. */
function barMarks(bar: BarLayout, own: readonly Body[], legs: readonly Body[], name: string): Mark[] {
  const marks = mergedMarks(own, name, own[0].id);
  const s = { ...bodyStyle(own[0], name), part: own[0].id };
  const r = bar.radiusMm;
  for (const end of [0, bar.length]) {
    const { x, y, headingRad } = bar.pointAt(end);
    marks.push(acrossMark(s, x, y, headingRad, r));
  }
  for (const at of bar.s1 === null ? [bar.s0] : [bar.s0, bar.s1]) {
    const { x, y, headingRad } = bar.pointAt(at);
    const clamp = { ...s, zMm: bar.z + r + 1, part: `${own[0].id}+${at}`, covered: 'unseen' as const };
    marks.push(clampMark(clamp, x, y, headingRad, CROSS_CLAMP_MM, 2 * r));
    const leg = legs.find(({ shape: { core } }) => core.kind === 'point' && Math.hypot(core.x - x, core.y - y) < r);
    // Seen from above, the upright's end shows in the clamp.
    if (leg)
      marks.push(
        ...outlineMarks(leg.shape, { ...bodyStyle(leg, name), line: WIDE, zMm: bar.z + r + 2, part: clamp.part }),
      );
  }
  return marks;
}

/** A rack: feet, uprights and bars from the layout, with the clamps where bars meet uprights. */
export function rackMarks(bodies: readonly Body[], bars: readonly BarLayout[], name: string): Mark[] {
  const marks: Mark[] = [];
  const legs = bodies.filter((body) => body.kind === 'leg');
  for (const body of bodies) {
    if (body.kind === 'bar') continue;
    const s = bodyStyle(body, name);
    // An upright stands on the deck through its foot.
    marks.push(...tubeMarks(body, body.kind === 'leg' ? { ...s, line: WIDE } : s));
  }
  for (const bar of bars) {
    const own = bodies.filter((body) => body.kind === 'bar' && bar.shapes.includes(body.shape));
    if (own.length > 0) marks.push(...barMarks(bar, own, legs, name));
  }
  return marks;
}
