/**
 * Arcs as cubic curves, for PDF, which has none.
 *
 * Error: with steps of at most an eighth of a turn a circle's radius is off by 4.3e-6 of itself at most (four curves a
 * circle: 2.7e-4). Source: the usual control length 4/3 tan(step / 4), common practice.
 */
const MOST_STEP = Math.PI / 4;

/** One curve: two control points and the end, x and y each. */
export type Curve = readonly [number, number, number, number, number, number];

/** The curves of an ellipse's arc from parameter `start` through `sweep`; a circle has rx = ry. */
export function arcCurves(
  cx: number,
  cy: number,
  rx: number,
  ry: number,
  rotation: number,
  start: number,
  sweep: number,
): Curve[] {
  const count = Math.max(1, Math.ceil(Math.abs(sweep) / MOST_STEP - 1e-9));
  const step = sweep / count;
  const k = (4 / 3) * Math.tan(step / 4);
  const c = Math.cos(rotation);
  const s = Math.sin(rotation);
  const at = (u: number, v: number): [number, number] => [cx + c * rx * u - s * ry * v, cy + s * rx * u + c * ry * v];
  return Array.from({ length: count }, (_, i): Curve => {
    const a = start + i * step;
    const b = a + step;
    const [ca, sa, cb, sb] = [Math.cos(a), Math.sin(a), Math.cos(b), Math.sin(b)];
    return [...at(ca - k * sa, sa + k * ca), ...at(cb + k * sb, sb - k * cb), ...at(cb, sb)];
  });
}
