/**
 * A press on the drawing and what becomes of it: a small state machine, told of points in px, free of React and canvas.
 *
 * begin() chooses by what is under the pointer; move() previews; end() keeps, cancel() forgets. A press that hardly moves
 * is a click: it selects, and again on the same spot it goes to what lies beneath.
 */

import { centreLineX } from '../../../drawing/extents.ts';
import { stageOf } from '../../../plan/stages.ts';
import { type Handle, pivotOf } from '../handles.ts';
import { piecesAt, piecesIn } from '../picking.ts';
import { stepsOf } from '../steps.ts';
import { committedLive, type Editor, shownLive } from '../store.ts';
import { boxRound, type Point, panned, planPoint, type View } from '../view.ts';
import { movedCommand } from './carry.ts';
import { pullCommand } from './pull.ts';

export interface Press {
  /** px on the canvas. */
  readonly px: number;
  readonly py: number;
  readonly shift: boolean;
  /** Alt, or Option: carry along what hangs on a rack; a riser's module is drawn to nothing. */
  readonly alt: boolean;
  /** The press moves the view: middle button, or the space bar held. */
  readonly pans: boolean;
  readonly coarse: boolean;
  /** The handle that the press takes hold of; left out: none. */
  readonly handle?: Handle | undefined;
}

type Doing =
  | { readonly kind: 'pan'; readonly view: View }
  | { readonly kind: 'marquee'; readonly before: readonly string[] }
  | { readonly kind: 'press'; readonly piece: string; readonly under: readonly string[] }
  | { readonly kind: 'drag'; readonly selection: readonly string[] }
  | { readonly kind: 'handle'; readonly handle: Handle }
  | { readonly kind: 'measure' };

/** A press that moves less stays a click. CSS px. */
const CLICK_PX = 4;
const CLICK_PX_COARSE = 10;
/** How far beside a thing it is still meant. CSS px. */
const TOUCH_PX = 18;
const MOUSE_PX = 6;
/** A piece's anchor this near the centre line is drawn to it. CSS px. */
const CENTRE_PX = 6;

const toGrid = (value: number, step: number) => Math.round(value / step) * step;

export class Gesture {
  private doing: Doing | null = null;
  private start: Press = { px: 0, py: 0, shift: false, alt: false, pans: false, coarse: false };
  private from: Point = { x: 0, y: 0 };
  private hasMoved = false;

  constructor(private readonly editor: Editor) {}

  get isActive(): boolean {
    return this.doing !== null;
  }

  /** Moves the view at the moment. */
  get isPanning(): boolean {
    return this.doing?.kind === 'pan';
  }

  private at(px: number, py: number): Point {
    const { view, size } = this.editor.store.getState();
    return planPoint(view, size, px, py);
  }

  private under(point: Point, coarse: boolean): string[] {
    const state = this.editor.store.getState();
    return piecesAt(shownLive(state).layout, point.x, point.y, (coarse ? TOUCH_PX : MOUSE_PX) / state.view.zoom);
  }

  begin(press: Press): void {
    const state = this.editor.store.getState();
    this.start = press;
    this.from = this.at(press.px, press.py);
    this.hasMoved = false;
    if (press.pans || state.tool === 'pan') {
      this.doing = { kind: 'pan', view: state.view };
      return;
    }
    if (press.handle) {
      this.doing = { kind: 'handle', handle: press.handle };
      return;
    }
    const under = this.under(this.from, press.coarse);
    if (state.tool === 'measure') {
      this.doing = { kind: 'measure' };
      this.editor.measurePick(under[0] ?? null);
      return;
    }
    if (under.length === 0) {
      // A finger on nothing moves the view: a marquee wants a mouse.
      this.doing = press.coarse
        ? { kind: 'pan', view: state.view }
        : { kind: 'marquee', before: press.shift ? state.selection : [] };
      return;
    }
    // What is selected and under the pointer is what the press means, even if something lies above it.
    const selected = under.find((id) => state.selection.includes(id));
    this.doing = { kind: 'press', piece: selected ?? under[0], under };
  }

  /** The pointer moves without a press: the piece that it is over. */
  hover(px: number, py: number): void {
    this.editor.setHover(this.under(this.at(px, py), false)[0] ?? null);
  }

  move(press: Press): void {
    if (!this.doing) return;
    const moved = Math.hypot(press.px - this.start.px, press.py - this.start.py);
    if (!this.hasMoved && moved < (press.coarse ? CLICK_PX_COARSE : CLICK_PX)) return;
    this.hasMoved = true;
    const to = this.at(press.px, press.py);
    switch (this.doing.kind) {
      case 'pan':
        this.editor.set({ view: panned(this.doing.view, press.px - this.start.px, press.py - this.start.py) });
        return;
      case 'marquee':
        this.editor.set({ marquee: boxRound([this.from, to]) });
        return;
      case 'press': {
        const { selection } = this.editor.store.getState();
        const { piece } = this.doing;
        const dragged = selection.includes(piece) ? selection : press.shift ? [...selection, piece] : [piece];
        if (dragged !== selection) this.editor.select(dragged);
        this.editor.setHover(null);
        this.doing = { kind: 'drag', selection: dragged };
        this.drag(to, press, dragged);
        return;
      }
      case 'drag':
        this.drag(to, press, this.doing.selection);
        return;
      case 'handle':
        this.pull(this.doing.handle, to, press);
        return;
      case 'measure':
        return;
    }
  }

  private drag(to: Point, press: Press, selection: readonly string[]): void {
    const state = this.editor.store.getState();
    const { plan, setup, layout } = committedLive(state);
    let dx = to.x - this.from.x;
    let dy = to.y - this.from.y;
    // Shift holds the move to one direction.
    if (press.shift) {
      if (Math.abs(dx) < Math.abs(dy)) dx = 0;
      else dy = 0;
    }
    const lead = setup.pieces[selection[0]];
    if (lead) {
      const { xMm, yMm } = lead.place;
      if (state.snaps) {
        const { coarseMm } = stepsOf(state.history.plan.units);
        dx = toGrid(xMm + dx, coarseMm) - xMm;
        dy = toGrid(yMm + dy, coarseMm) - yMm;
      }
      const centre = centreLineX(layout, stageOf(plan, setup));
      if (Math.abs(xMm + dx - centre) * state.view.zoom < CENTRE_PX) dx = centre - xMm;
    }
    const motion = { turnDeg: 0, aboutXMm: 0, aboutYMm: 0, dxMm: dx, dyMm: dy };
    const command = movedCommand({ plan, setup }, selection, state.carries !== press.alt, motion);
    if (command === null) this.editor.set({ message: 'What is selected is locked: unlock it first.' });
    else this.editor.previewCommand(command);
  }

  private pull(handle: Handle, to: Point, press: Press): void {
    const state = this.editor.store.getState();
    const live = committedLive(state);
    if (handle.kind === 'module') {
      const by = { x: to.x - this.from.x, y: to.y - this.from.y };
      const how = { free: press.alt, steps: state.snaps, zoom: state.view.zoom };
      const pulled = state.lent?.pull(live, handle, by, how);
      if (pulled) this.editor.previewCommand(pulled.command, pulled.lines);
      return;
    }
    const { plan, setup, layout } = live;
    const piece = setup.pieces[handle.piece];
    if (!piece) return;
    const command = pullCommand({
      plan,
      setup,
      layout,
      handle,
      pivot: pivotOf(piece, layout),
      to,
      carries: state.carries !== press.alt,
      // Shift turns in whole steps, as the grid does.
      steps: state.snaps || press.shift,
    });
    if (command !== null) this.editor.previewCommand(command);
  }

  end(press: Press): void {
    const { doing } = this;
    this.doing = null;
    if (!doing) return;
    switch (doing.kind) {
      case 'press':
        if (!this.hasMoved) this.click(doing.piece, doing.under, press.shift);
        return;
      case 'marquee': {
        const { marquee } = this.editor.store.getState();
        this.editor.set({ marquee: null });
        const found = marquee ? piecesIn(this.editor.committed().layout, marquee) : [];
        this.editor.set({ finding: null });
        this.editor.select([...new Set([...doing.before, ...found])]);
        return;
      }
      case 'pan':
        // A tap on nothing lets go of the selection, as a click with a mouse does.
        if (!this.hasMoved && press.coarse && !press.pans) this.editor.select([]);
        return;
      case 'drag':
      case 'handle':
        this.editor.commitPreview();
        return;
      case 'measure':
        return;
    }
  }

  private click(piece: string, under: readonly string[], shift: boolean): void {
    const { selection } = this.editor.store.getState();
    this.editor.set({ finding: null });
    if (shift) {
      this.editor.select(selection.includes(piece) ? selection.filter((id) => id !== piece) : [...selection, piece]);
      return;
    }
    // Clicked again: what lies beneath.
    const isAgain = selection.length === 1 && selection[0] === piece && under.length > 1;
    this.editor.select([isAgain ? under[(under.indexOf(piece) + 1) % under.length] : piece]);
  }

  cancel(): void {
    this.doing = null;
    this.editor.set({ marquee: null });
    this.editor.previewCommand(null);
  }
}
