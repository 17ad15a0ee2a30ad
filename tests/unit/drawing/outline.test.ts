/** Outlines enclose what geometry measures: walked in small chords here and summed by the shoelace formula. */
import { expect, test } from 'vitest';
import type { Chain } from '../../../src/drawing/displayList.ts';
import { style } from '../../../src/drawing/displayList.ts';
import { outlineChains, outlineMarks } from '../../../src/drawing/outline.ts';
import { area } from '../../../src/geometry/area.ts';
import { bentCapsule, capsule, disc, rectangle, roundedPolygon, type Swept } from '../../../src/geometry/shapes.ts';

/** Signed area of a closed chain, arcs in 4000 chords. */
function shoelace({ pieces }: Chain): number {
  const points: [number, number][] = pieces.flatMap((p) =>
    p.kind === 'segment'
      ? [[p.x0, p.y0] as [number, number]]
      : Array.from({ length: 4000 }, (_, k): [number, number] => {
          const angle = p.start + (p.sweep * k) / 4000;
          return [p.cx + p.r * Math.cos(angle), p.cy + p.r * Math.sin(angle)];
        }),
  );
  return points.reduce((sum, [x, y], k) => {
    const [nx, ny] = points[(k + 1) % points.length];
    return sum + (x * ny - nx * y) / 2;
  }, 0);
}

test.each<[string, Swept, number]>([
  ['drum', disc(10, 20, 178), 1],
  ['straight tube', capsule(-300, 5, 420, 80, 19.05), 1],
  ['curved tube', bentCapsule(0, 900, 900, -2, 1.2, 19.05), 1],
  ['closed ring: edge and hole', bentCapsule(0, 0, 300, 0, 7, 20), 2],
  ['bass drum', rectangle(0, 0, 560, 410, 0.4), 1],
  ['rounded box', roundedPolygon([0, 0, 300, 0, 200, 250], 30), 1],
])('%s: chains enclose the area', (_, shape, loops) => {
  const chains = outlineChains(shape);
  expect(chains).toHaveLength(loops);
  const sum = chains.reduce((total, chain) => total + shoelace(chain), 0);
  expect(Math.abs(sum / area(shape) - 1)).toBeLessThan(1e-6);
});

test('a curved tube keeps four arcs of two bends and two ends, no chords', () => {
  const [chain] = outlineChains(bentCapsule(0, 900, 900, -2, 1.2, 19.05));
  expect(chain.pieces.map((p) => p.kind)).toEqual(['arc', 'arc', 'arc', 'arc']);
  const radii = chain.pieces.map((p) => (p.kind === 'arc' ? p.r : 0)).sort((a, b) => a - b);
  [19.05, 19.05, 880.95, 919.05].forEach((r, k) => {
    expect(radii[k]).toBeCloseTo(r, 9);
  });
});

test('a disc is one circle; a line without width is nothing', () => {
  expect(outlineMarks(disc(1, 2, 3), style('drums'))).toMatchObject([{ kind: 'circle', cx: 1, cy: 2, r: 3 }]);
  expect(outlineMarks(capsule(0, 0, 10, 0, 0), style('drums'))).toEqual([]);
});
