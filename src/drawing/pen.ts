/**
 * A pen for one thing's glyph: draws in the thing's own frame (own x to the right, own y upstage at heading 0) and
 * keeps the marks in the plan's frame.
 */
import { compose, type Motion, movePoint, TAU } from '../geometry/frame.ts';
import type { Piece } from '../geometry/outline.ts';
import { moved, type Swept } from '../geometry/shapes.ts';
import { type Chain, circleMark, ellipseMark, type Mark, type Style, straightChain, textMark } from './displayList.ts';
import { outlineMarks } from './outline.ts';

export class Pen {
  readonly marks: Mark[] = [];

  constructor(
    private readonly motion: Motion,
    private readonly base: Style,
  ) {}

  private styled(changes: Partial<Style>): Style {
    return { ...this.base, ...changes };
  }

  /** A pen in a frame of its own within this one; its marks land here. */
  within(dx: number, dy: number, angle: number, changes: Partial<Style> = {}): Pen {
    const inner = new Pen(compose(this.motion, { angle, dx, dy }), this.styled(changes));
    // One list, so that what is drawn through either stays in the order of drawing.
    (inner as { marks: Mark[] }).marks = this.marks;
    return inner;
  }

  /** A pen about the same middle, turned back upright: for lettering. */
  upright(): Pen {
    return this.within(0, 0, -this.motion.angle);
  }

  /** Lettering about a place, upright in the plan: for a pen that is not turned. */
  text(text: string, x: number, y: number, sizeMm: number): void {
    const [atX, atY] = movePoint(this.motion, x, y);
    this.marks.push(textMark(this.styled({}), text, atX, atY, sizeMm, { anchor: 'middle', bold: true }));
  }

  circle(x: number, y: number, r: number, changes: Partial<Style> = {}): void {
    this.ellipse(x, y, r, r, changes);
  }

  /** Axes along the thing's own x and y. */
  ellipse(x: number, y: number, rx: number, ry: number, changes: Partial<Style> = {}): void {
    const [cx, cy] = movePoint(this.motion, x, y);
    this.marks.push(ellipseMark(this.styled(changes), cx, cy, rx, ry, this.motion.angle));
  }

  /** Through points x0, y0, x1, y1 ... */
  line(points: readonly number[], changes: Partial<Style> = {}): void {
    this.chain(straightChain(this.inPlan(points), false), { tint: null, ...changes });
  }

  polygon(points: readonly number[], changes: Partial<Style> = {}): void {
    this.chain(straightChain(this.inPlan(points), true), changes);
  }

  box(x: number, y: number, width: number, depth: number, changes: Partial<Style> = {}): void {
    const w = width / 2;
    const d = depth / 2;
    this.polygon([x - w, y - d, x + w, y - d, x + w, y + d, x - w, y + d], changes);
  }

  /** From angle `start` through `sweep`. */
  arc(x: number, y: number, r: number, start: number, sweep: number, changes: Partial<Style> = {}): void {
    const [cx, cy] = movePoint(this.motion, x, y);
    const pieces = [{ kind: 'arc' as const, cx, cy, r, start: start + this.motion.angle, sweep }];
    this.chain({ pieces, closed: Math.abs(sweep) >= TAU }, { tint: null, ...changes });
  }

  /** A closed outline given in the thing's own frame. */
  outline(pieces: readonly Piece[], changes: Partial<Style> = {}): void {
    const { angle } = this.motion;
    const own = pieces.map((p): Piece => {
      if (p.kind === 'segment') {
        const [x0, y0] = movePoint(this.motion, p.x0, p.y0);
        const [x1, y1] = movePoint(this.motion, p.x1, p.y1);
        return { kind: 'segment', x0, y0, x1, y1 };
      }
      const [cx, cy] = movePoint(this.motion, p.cx, p.cy);
      return { ...p, cx, cy, start: p.start + angle };
    });
    this.chain({ pieces: own, closed: true }, changes);
  }

  /** A shape given in the thing's own frame. */
  shape(shape: Swept, changes: Partial<Style> = {}): void {
    this.marks.push(...outlineMarks(moved(shape, this.motion), this.styled(changes)));
  }

  /** A shape that is already in the plan's frame: a layout's body. */
  body(shape: Swept, changes: Partial<Style> = {}): void {
    this.marks.push(...outlineMarks(shape, this.styled(changes)));
  }

  /** A circle drawn small: a rivet, a wing nut, the middle of something. */
  dot(x: number, y: number, r: number, changes: Partial<Style> = {}): void {
    const [cx, cy] = movePoint(this.motion, x, y);
    this.marks.push(circleMark(this.styled({ tint: 'solid', line: null, ...changes }), cx, cy, r));
  }

  private chain(chain: Chain, changes: Partial<Style>): void {
    this.marks.push({ ...this.styled(changes), kind: 'path', chains: [chain] });
  }

  private inPlan(points: readonly number[]): number[] {
    const out: number[] = [];
    for (let i = 0; i < points.length; i += 2) out.push(...movePoint(this.motion, points[i], points[i + 1]));
    return out;
  }
}
