/**
 * Walking along a mark's edge, and asking whether a point lies in its filled area. For hidden lines and for the places of
 * labels, which look at what is drawn, not at bodies.
 */
import { TAU, wrapAngle } from '../geometry/frame.ts';
import { type EllipseMark, ellipsePoint, type Mark } from './displayList.ts';

/** A stretch of an edge: its length, a point of it, and a part of it as a mark's geometry; parameter from 0 to 1. */
export interface Stretch {
  readonly lengthMm: number;
  at(t: number): [number, number];
  /** The part from a to b as a mark in the style of the whole. */
  cut(a: number, b: number): Mark;
}

function arcStretch(mark: Mark, cx: number, cy: number, r: number, start: number, sweep: number): Stretch {
  return {
    lengthMm: r * Math.abs(sweep),
    at: (t) => [cx + r * Math.cos(start + sweep * t), cy + r * Math.sin(start + sweep * t)],
    cut: (a, b) => ({
      ...(mark as Extract<Mark, { kind: 'path' }>),
      kind: 'path',
      chains: [
        { pieces: [{ kind: 'arc', cx, cy, r, start: start + sweep * a, sweep: sweep * (b - a) }], closed: false },
      ],
    }),
  };
}

/** The edge of a mark, stretch by stretch; a text has none. */
export function stretchesOf(mark: Mark): Stretch[] {
  switch (mark.kind) {
    case 'text':
      return [];
    case 'circle':
      return [arcStretch(mark, mark.cx, mark.cy, mark.r, 0, TAU)];
    case 'ellipse':
      return [
        {
          lengthMm: Math.max(mark.rx, mark.ry) * Math.abs(mark.sweep),
          at: (t) => ellipsePoint(mark, mark.start + mark.sweep * t),
          cut: (a, b): EllipseMark => ({
            ...mark,
            start: mark.start + mark.sweep * a,
            sweep: mark.sweep * (b - a),
          }),
        },
      ];
    case 'path':
      return mark.chains.flatMap((chain) =>
        chain.pieces.map((p): Stretch => {
          if (p.kind === 'arc') return arcStretch(mark, p.cx, p.cy, p.r, p.start, p.sweep);
          const { x0, y0, x1, y1 } = p;
          const at = (t: number): [number, number] => [x0 + (x1 - x0) * t, y0 + (y1 - y0) * t];
          return {
            lengthMm: Math.hypot(x1 - x0, y1 - y0),
            at,
            cut(a, b) {
              const [ax, ay] = at(a);
              const [bx, by] = at(b);
              return {
                ...mark,
                chains: [{ pieces: [{ kind: 'segment', x0: ax, y0: ay, x1: bx, y1: by }], closed: false }],
              };
            },
          };
        }),
      );
  }
}

/** Whether a mark covers what was drawn before it: filled, and not see-through. */
export function isOpaque(mark: Mark): boolean {
  if (mark.tint === null || mark.tint === 'overhead') return false;
  if (mark.kind === 'path') return mark.chains.every((chain) => chain.closed);
  return mark.kind === 'circle' || (mark.kind === 'ellipse' && mark.sweep >= TAU);
}

/** Whether a point lies in the area that a closed mark encloses (even-odd for several chains). */
export function encloses(mark: Mark, x: number, y: number): boolean {
  switch (mark.kind) {
    case 'text':
      return false;
    case 'circle':
      return Math.hypot(x - mark.cx, y - mark.cy) < mark.r;
    case 'ellipse': {
      const c = Math.cos(mark.rotation);
      const s = Math.sin(mark.rotation);
      const u = (c * (x - mark.cx) + s * (y - mark.cy)) / mark.rx;
      const v = (-s * (x - mark.cx) + c * (y - mark.cy)) / mark.ry;
      return u * u + v * v < 1;
    }
    case 'path': {
      // Crossings of a ray to the right with every stretch.
      let crossings = 0;
      for (const chain of mark.chains)
        for (const p of chain.pieces) {
          if (p.kind === 'segment') {
            if (p.y0 > y !== p.y1 > y && p.x0 + ((y - p.y0) * (p.x1 - p.x0)) / (p.y1 - p.y0) > x) crossings++;
            continue;
          }
          const sine = (y - p.cy) / p.r;
          if (Math.abs(sine) >= 1) continue;
          const rising = Math.asin(sine);
          for (const angle of [rising, Math.PI - rising]) {
            const passed = p.sweep > 0 ? wrapAngle(angle - p.start) : wrapAngle(p.start - angle);
            if (passed < Math.abs(p.sweep) && p.cx + p.r * Math.cos(angle) > x) crossings++;
          }
        }
      return crossings % 2 === 1;
    }
  }
}
