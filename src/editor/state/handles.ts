/** What can be taken hold of besides the pieces: a rack's legs, a foot's end, a clamp on its bar, and the handle that turns. */
import { extent } from '../../geometry/support.ts';
import { bodiesOf } from '../../layout/bodiesOf.ts';
import type { Layout } from '../../layout/layout.ts';
import type { Command } from '../../plan/commands/index.ts';
import type { Piece, Setup } from '../../plan/schema.ts';
import { toRadians } from '../../units.ts';
import type { Live } from './live.ts';
import type { Point } from './view.ts';

interface Held extends Point {
  readonly piece: string;
}

/** `about`: what it turns about; for a foot the leg's own place. */
export type Handle = Held &
  (
    | { readonly kind: 'leg'; readonly leg: string }
    | { readonly kind: 'foot'; readonly leg: string; readonly about: Point }
    | { readonly kind: 'turn'; readonly about: Point }
    | { readonly kind: 'second' }
    /** The clamp by which the piece hangs on a bar; `along`: the bar's heading there, radians. */
    | { readonly kind: 'clamp'; readonly along: number }
    /** A module of the riser, which `piece` names. */
    | { readonly kind: 'module' }
  );

/** What a gesture draws of the riser: the module that it moves, and the edges that this shares with others; x0 y0 x1 y1 ..., mm. */
export interface RiserLines {
  readonly outline: readonly number[];
  readonly seams: readonly (readonly number[])[];
}

/** Handles that a panel lends the drawing while it is open, and what pulling one does: a first visit does without them. */
export interface LentGrips {
  handles(live: Live): readonly Handle[];
  /** `by`: how far the hand has gone, mm. `free`: it is drawn to nothing. Null: what it held is gone. */
  pull(
    live: Live,
    handle: Handle,
    by: Point,
    how: { readonly free: boolean; readonly steps: boolean; readonly zoom: number },
  ): { readonly command: Command; readonly lines: RiserLines } | null;
}

/** Tells the handles of one piece apart, and modules: `turn`, `leg:left`, `module:module-1`. */
export const handleKey = (handle: Handle): string =>
  handle.kind === 'leg' || handle.kind === 'foot'
    ? `${handle.kind}:${handle.leg}`
    : handle.kind === 'module'
      ? `module:${handle.piece}`
      : handle.kind;

/** What a piece turns about: its anchor; for a rack the middle of its legs. */
export function pivotOf(piece: Piece, layout: Layout): Point {
  const legs = layout.racks[piece.id]?.legs;
  if (!legs || legs.length === 0) return { x: piece.place.xMm, y: piece.place.yMm };
  return {
    x: legs.reduce((sum, leg) => sum + leg.x, 0) / legs.length,
    y: legs.reduce((sum, leg) => sum + leg.y, 0) / legs.length,
  };
}

/** Handles of a selection of one piece; none for several, and none for a locked one. */
export function handlesOf(setup: Setup, layout: Layout, selection: readonly string[], pxPerMm: number): Handle[] {
  if (selection.length !== 1) return [];
  const piece = setup.pieces[selection[0]];
  if (!piece || piece.locked === true) return [];
  const shapes = bodiesOf(layout.bodies, piece.id).map((body) => body.shape);
  const box = extent(shapes);
  if (!box) return [];
  const pivot = pivotOf(piece, layout);
  const of = { piece: piece.id };
  const handles: Handle[] = [];
  const rack = layout.racks[piece.id];
  // The handle stands before the piece, where it faces; a rack's beside its bars.
  const heading = toRadians(piece.place.headingDeg) + (rack ? Math.PI / 2 : -Math.PI / 2);
  const reach = Math.max(box.maxX - box.minX, box.maxY - box.minY) / 2;
  const out = (rack ? reach * 0.35 : reach) + 26 / pxPerMm;
  handles.push({
    kind: 'turn',
    ...of,
    x: pivot.x + out * Math.cos(heading),
    y: pivot.y + out * Math.sin(heading),
    about: pivot,
  });
  if (piece.kind === 'item') {
    const second = bodiesOf(layout.bodies, piece.id).find((body) => body.part === 'second-board');
    const own = second && extent([second.shape]);
    if (own) handles.push({ kind: 'second', ...of, x: (own.minX + own.maxX) / 2, y: (own.minY + own.maxY) / 2 });
    const carrier = piece.mount?.carrier;
    if (carrier?.on === 'bar') {
      const bar = layout.racks[carrier.rack]?.bars.find(({ id }) => id === carrier.bar);
      const at = bar?.pointAt(carrier.atMm);
      if (at) handles.push({ kind: 'clamp', ...of, x: at.x, y: at.y, along: at.headingRad });
    }
    return handles;
  }
  rack?.legs.forEach((leg, i) => {
    const foot = piece.legs[i].foot;
    if (foot) {
      const half = foot.lengthMm / 2;
      handles.push({
        kind: 'foot',
        ...of,
        leg: leg.id,
        x: leg.x + half * Math.cos(leg.headingRad),
        y: leg.y + half * Math.sin(leg.headingRad),
        about: leg,
      });
    }
    handles.push({ kind: 'leg', ...of, leg: leg.id, x: leg.x, y: leg.y });
  });
  return handles;
}
