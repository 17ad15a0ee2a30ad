/**
 * A press on the drawing and what becomes of it: a small state machine, told of points in mm, free of React and canvas.
 *
 * begin() chooses by what is under the pointer; move() previews; end() keeps, cancel() forgets. A press that hardly moves is a
 * click: it selects, and again on the same spot it goes to what lies beneath.
 */
import type { Command } from '../../plan/commands/index.ts';
import type { Rack } from '../../plan/schema.ts';
import { toDegrees, toRadians } from '../../units.ts';
import { movingPieces, toPlaces, turnAbout } from '../carry.ts';
import { type Handle, handlesOf, pivotOf } from '../handles.ts';
import { handleAt, piecesAt, piecesIn } from '../picking.ts';
import { type EditorStore, live, setupOf } from '../store.ts';
import { type Point, toPlan, type View } from '../view.ts';

export interface Press {
  /** px on the canvas. */
  readonly px: number;
  readonly py: number;
  readonly shift: boolean;
  /** Alt, or Option: carry along what hangs on a rack. */
  readonly alt: boolean;
  /** The press moves the view: middle button, or the space bar held. */
  readonly pans: boolean;
  readonly coarse: boolean;
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
const TOUCH_PX = 18;
const MOUSE_PX = 6;
const HANDLE_PX = 11;
const HANDLE_PX_COARSE = 24;
const GRID_MM = 10;
const GRID_DEG = 5;
/** A piece's anchor this near the centre line is drawn to it. px. */
const CENTRE_PX = 6;

const toGrid = (value: number, step: number) => Math.round(value / step) * step;
const tidy = (value: number) => Math.round(value * 1000) / 1000;

export class Gesture {
  private doing: Doing | null = null;
  private start: Press = { px: 0, py: 0, shift: false, alt: false, pans: false, coarse: false };
  private from: Point = { x: 0, y: 0 };
  private hasMoved = false;

  constructor(private readonly store: EditorStore) {}

  get isActive(): boolean {
    return this.doing !== null;
  }

  private planPoint(px: number, py: number): Point {
    const { view, size } = this.store.getState();
    return toPlan(view, size, px, py);
  }

  private under(point: Point, coarse: boolean): string[] {
    const state = this.store.getState();
    return piecesAt(live(state).layout, point.x, point.y, (coarse ? TOUCH_PX : MOUSE_PX) / state.view.pxPerMm);
  }

  /** The handle at a place, of what is selected. */
  handleUnder(point: Point, coarse: boolean): Handle | null {
    const state = this.store.getState();
    if (state.tool !== 'select') return null;
    const { pxPerMm } = state.view;
    const handles = handlesOf(setupOf(state), live(state).layout, state.selection, pxPerMm);
    return handleAt(handles, point.x, point.y, (coarse ? HANDLE_PX_COARSE : HANDLE_PX) / pxPerMm);
  }

  begin(press: Press): void {
    const state = this.store.getState();
    this.start = press;
    this.from = this.planPoint(press.px, press.py);
    this.hasMoved = false;
    if (press.pans || state.tool === 'pan') {
      this.doing = { kind: 'pan', view: state.view };
      return;
    }
    const handle = this.handleUnder(this.from, press.coarse);
    if (handle) {
      this.doing = { kind: 'handle', handle };
      return;
    }
    const under = this.under(this.from, press.coarse);
    if (state.tool === 'measure') {
      this.doing = { kind: 'measure' };
      if (under.length > 0) this.store.pickMeasure(under[0]);
      return;
    }
    if (under.length === 0) {
      // On a phone an empty press moves the view: a marquee wants a mouse.
      this.doing = press.coarse
        ? { kind: 'pan', view: state.view }
        : { kind: 'marquee', before: press.shift ? state.selection : [] };
      return;
    }
    // What is selected and under the pointer is what the press means, even if something lies above it.
    const selected = under.find((id) => state.selection.includes(id));
    this.doing = { kind: 'press', piece: selected ?? under[0], under };
  }

  /** The pointer moves without a press: what it is over. */
  hover(px: number, py: number): void {
    const [piece = null] = this.under(this.planPoint(px, py), false);
    if (this.store.getState().hover !== piece) this.store.set({ hover: piece });
  }

  move(press: Press): void {
    if (!this.doing) return;
    const moved = Math.hypot(press.px - this.start.px, press.py - this.start.py);
    if (!this.hasMoved && moved < (press.coarse ? CLICK_PX_COARSE : CLICK_PX)) return;
    const isFirst = !this.hasMoved;
    this.hasMoved = true;
    const to = this.planPoint(press.px, press.py);
    switch (this.doing.kind) {
      case 'pan': {
        const { view } = this.doing;
        this.store.setView({
          ...view,
          x: view.x - (press.px - this.start.px) / view.pxPerMm,
          y: view.y + (press.py - this.start.py) / view.pxPerMm,
        });
        return;
      }
      case 'marquee':
        this.store.set({
          marquee: {
            minX: Math.min(this.from.x, to.x),
            maxX: Math.max(this.from.x, to.x),
            minY: Math.min(this.from.y, to.y),
            maxY: Math.max(this.from.y, to.y),
          },
        });
        return;
      case 'press': {
        const { selection } = this.store.getState();
        const { piece } = this.doing;
        const dragged = selection.includes(piece) ? selection : press.shift ? [...selection, piece] : [piece];
        if (isFirst && dragged !== selection) this.store.select(dragged);
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
    const state = this.store.getState();
    const setup = setupOf(state);
    const carry = state.carryAlong || press.alt;
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
      if (state.snap) {
        dx = toGrid(xMm + dx, GRID_MM) - xMm;
        dy = toGrid(yMm + dy, GRID_MM) - yMm;
      }
      if (Math.abs(xMm + dx) * state.view.pxPerMm < CENTRE_PX) dx = -xMm;
    }
    const places = toPlaces(setup, selection, carry, { angle: 0, dx, dy });
    const moving = movingPieces(setup, selection, carry);
    if (moving.length === 0) {
      this.store.set({ notice: 'What is selected is locked: unlock it first.' });
      return;
    }
    this.store.preview({ type: 'placePieces', setup: state.setupId, places }, moving);
  }

  private pull(handle: Handle, to: Point, press: Press): void {
    const state = this.store.getState();
    const setup = setupOf(state);
    const { setupId } = state;
    const carry = state.carryAlong || press.alt;
    switch (handle.kind) {
      case 'turn': {
        const piece = setup.pieces[handle.piece];
        const { x, y } = pivotOf(piece, live({ ...state, preview: null }).layout);
        let angle = Math.atan2(to.y - y, to.x - x) - Math.atan2(handle.y - y, handle.x - x);
        const { headingDeg } = piece.place;
        if (state.snap || press.shift) angle = toRadians(toGrid(headingDeg + toDegrees(angle), GRID_DEG) - headingDeg);
        angle = Math.atan2(Math.sin(angle), Math.cos(angle));
        const places = toPlaces(setup, [piece.id], carry, turnAbout(x, y, angle));
        this.store.preview({ type: 'placePieces', setup: setupId, places }, movingPieces(setup, [piece.id], carry));
        return;
      }
      case 'leg': {
        const rack = setup.pieces[handle.rack] as Rack;
        const command: Command = {
          type: 'turnRackLeg',
          setup: setupId,
          rack: rack.id,
          leg: handle.leg,
          xMm: to.x,
          yMm: to.y,
        };
        this.store.preview(
          carry ? this.withCarried(command, rack, handle.leg, to) : command,
          movingPieces(setup, [rack.id], carry),
        );
        return;
      }
      case 'foot': {
        const rack = setup.pieces[handle.rack] as Rack;
        const leg = rack.legs.find(({ id }) => id === handle.leg);
        if (!leg?.foot) return;
        let heading = toDegrees(Math.atan2(to.y - handle.aboutY, to.x - handle.aboutX)) - rack.place.headingDeg;
        if (state.snap || press.shift) heading = toGrid(heading, GRID_DEG);
        heading = tidy(((((heading + 180) % 360) + 360) % 360) - 180);
        const foot = { ...leg.foot, headingDeg: heading };
        this.store.preview({ type: 'setLeg', setup: setupId, rack: rack.id, leg: leg.id, set: { foot } }, [rack.id]);
        return;
      }
      case 'second': {
        const item = setup.pieces[handle.piece];
        if (item.kind !== 'item') return;
        const angle = -toRadians(item.place.headingDeg);
        const x = to.x - item.place.xMm;
        const y = to.y - item.place.yMm;
        const second = {
          xMm: tidy(x * Math.cos(angle) - y * Math.sin(angle)),
          yMm: tidy(x * Math.sin(angle) + y * Math.cos(angle)),
          headingDeg: item.second?.headingDeg ?? 0,
        };
        this.store.preview({ type: 'setPiece', setup: setupId, piece: item.id, set: { second } }, [item.id]);
        return;
      }
    }
  }

  /** A leg dragged with what hangs on the rack: a two-leg rack turns about its other leg, and so does everything it carries. */
  private withCarried(
    command: Extract<Command, { type: 'turnRackLeg' }>,
    rack: Rack,
    legId: string,
    to: Point,
  ): Command {
    const state = this.store.getState();
    if (rack.legs.length !== 2) return command;
    const { legs } = live({ ...state, preview: null }).layout.racks[rack.id];
    const at = legs.findIndex(({ id }) => id === legId);
    const [leg, other] = [legs[at], legs[1 - at]];
    const angle = Math.atan2(to.y - other.y, to.x - other.x) - Math.atan2(leg.y - other.y, leg.x - other.x);
    const places = toPlaces(setupOf(state), [rack.id], true, turnAbout(other.x, other.y, angle));
    delete places[rack.id];
    if (Object.keys(places).length === 0) return command;
    return { type: 'many', commands: [command, { type: 'placePieces', setup: state.setupId, places }] };
  }

  end(press: Press): void {
    const { doing } = this;
    this.doing = null;
    if (!doing) return;
    const { marquee } = this.store.getState();
    switch (doing.kind) {
      case 'press': {
        if (this.hasMoved) return;
        this.click(doing.piece, doing.under, press.shift);
        return;
      }
      case 'marquee': {
        if (!marquee) {
          this.store.select(doing.before);
          return;
        }
        const found = piecesIn(live(this.store.getState()).layout, marquee);
        this.store.set({ marquee: null });
        this.store.select([...new Set([...doing.before, ...found])]);
        return;
      }
      case 'pan':
        // A tap on nothing lets go of the selection, as a click with a mouse does.
        if (!this.hasMoved && press.coarse) this.store.select([]);
        return;
      case 'drag':
      case 'handle':
        this.store.endPreview(true);
        return;
      case 'measure':
        return;
    }
  }

  private click(piece: string, under: readonly string[], shift: boolean): void {
    const { selection } = this.store.getState();
    if (shift) {
      this.store.select(selection.includes(piece) ? selection.filter((id) => id !== piece) : [...selection, piece]);
      return;
    }
    // Clicked again: what lies beneath.
    const isAgain = selection.length === 1 && selection[0] === piece && under.length > 1;
    this.store.select([isAgain ? under[(under.indexOf(piece) + 1) % under.length] : piece]);
  }

  cancel(): void {
    this.doing = null;
    this.store.set({ marquee: null });
    this.store.endPreview(false);
  }
}
