/**
 * Area, edge length and centroid of one swept shape. What a curved tube covers twice counts once.
 *
 * Units:  area in the square of the length unit (mm2), perimeter and centroid in the unit itself.
 * Exact:  closed forms; relative error below 1e-13 for area and perimeter, 1e-9 mm for the centroid within 100 m.
 * Inputs: shapes from shapes.ts. A shape of radius 0 without a polygon has area 0 and perimeter 0.
 */
import { TAU } from './frame.ts';
import { anchor, hasArea, Integral, overlapsItself, ownOutline } from './outline.ts';
import type { PolygonCore, Swept } from './shapes.ts';

function polygonMeasure({ points: p }: PolygonCore): { area: number; length: number } {
  let twice = 0;
  let length = 0;
  for (let i = 0; i < p.length; i += 2) {
    const j = (i + 2) % p.length;
    twice += (p[i] - p[0]) * (p[j + 1] - p[1]) - (p[j] - p[0]) * (p[i + 1] - p[1]);
    length += Math.hypot(p[j] - p[i], p[j + 1] - p[i + 1]);
  }
  return { area: twice / 2, length };
}

function integral(s: Swept): Integral {
  return new Integral(...anchor(s)).draw(ownOutline(s));
}

/** The area a shape covers. */
export function area(s: Swept): number {
  const { core, radius } = s;
  switch (core.kind) {
    case 'point':
      return Math.PI * radius * radius;
    case 'segment':
      return 2 * radius * Math.hypot(core.x1 - core.x0, core.y1 - core.y0) + Math.PI * radius * radius;
    case 'polygon': {
      const flat = polygonMeasure(core);
      return flat.area + flat.length * radius + Math.PI * radius * radius;
    }
    case 'arc':
      if (core.sweep >= TAU)
        return core.r > radius ? 2 * TAU * core.r * radius : Math.PI * (core.r + radius) * (core.r + radius);
      if (!overlapsItself(s)) return 2 * core.r * core.sweep * radius + Math.PI * radius * radius;
      return integral(s).area;
  }
}

/** The length of a shape's edge: the outer edge and that of any hole. */
export function perimeter(s: Swept): number {
  const { core, radius } = s;
  if (!hasArea(s)) return 0;
  switch (core.kind) {
    case 'point':
      return TAU * radius;
    case 'segment':
      return 2 * Math.hypot(core.x1 - core.x0, core.y1 - core.y0) + TAU * radius;
    case 'polygon':
      return polygonMeasure(core).length + TAU * radius;
    case 'arc':
      if (core.sweep >= TAU) return TAU * (core.r > radius ? 2 * core.r : core.r + radius);
      if (!overlapsItself(s)) return 2 * core.r * core.sweep + TAU * radius;
      return integral(s).length;
  }
}

/** The centroid of the area a shape covers; of its core where it covers none. */
export function centroid(s: Swept): [number, number] {
  const { core } = s;
  if (core.kind === 'point' || core.kind === 'segment' || (core.kind === 'arc' && core.sweep >= TAU)) return anchor(s);
  if (hasArea(s)) return integral(s).centroid;
  if (core.kind !== 'arc') return anchor(s);
  // A bare arc: its centre of mass lies on its middle ray at r sin(a/2) / (a/2).
  const half = core.sweep / 2;
  const reach = (core.r * Math.sin(half)) / half;
  return [core.cx + reach * Math.cos(core.start + half), core.cy + reach * Math.sin(core.start + half)];
}
