/**
 * The drawing on the screen: four layers of one canvas each, repainted only when what they show has changed.
 *
 *   ground   grid, riser, centre line, dimensions: the plan and the view
 *   bodies   pieces from low to high, without those that a gesture moves
 *   labels   names, and the rulers above everything that scrolls
 *   overlay  the gesture's pieces, selection, handles, gaps, flags: each frame of a gesture, and nothing else
 *
 * Knows Konva and the editor's state, not React. All painting is ours: a layer is one custom shape that does not listen.
 */
import Konva from 'konva/lib/Core';
import type { Editor, EditorState } from '../state/store.ts';
import { committedLive } from '../state/store.ts';
import { isText, paintGround, paintRulers } from './ground.ts';
import { paintLetters, paintNames } from './names.ts';
import { namedOnTop, paintOverlay } from './overlay.ts';
import { type Context, paintCovered, paintMarks, planSpace } from './paint.ts';
import { DARK, LIGHT, type Palette } from './palette.ts';
import { sceneMarks } from './scene.ts';

type LayerName = 'ground' | 'bodies' | 'labels' | 'overlay';

const NAMES: readonly LayerName[] = ['ground', 'bodies', 'labels', 'overlay'];

/** More device pixels than these cost time and show nothing. */
const MOST_RATIO = 3;

/** The fields of the state that each layer depends on. */
const SHOWS: Readonly<Record<LayerName, (state: EditorState) => readonly unknown[]>> = {
  ground: ({ history, setupId, view, size }) => [history.plan, setupId, view, size],
  bodies: ({ history, setupId, view, size, preview }) => [
    history.plan,
    setupId,
    view,
    size,
    preview?.moving.join('\n') ?? null,
  ],
  labels: ({ history, setupId, view, size, selection, preview }) => [
    history.plan,
    setupId,
    view,
    size,
    selection,
    preview?.moving.join('\n') ?? null,
  ],
  overlay: ({
    history,
    setupId,
    view,
    size,
    selection,
    hover,
    tool,
    preview,
    measured,
    finding,
    marquee,
    isReadOnly,
  }) => [history.plan, setupId, view, size, selection, hover, tool, preview, measured, finding, marquee, isReadOnly],
};

const same = (a: readonly unknown[], b: readonly unknown[]) => a.every((value, i) => Object.is(value, b[i]));

export class Drawing {
  private readonly stage: Konva.Stage;
  private readonly layers = new Map<LayerName, Konva.Layer>();
  private readonly shown = new Map<LayerName, readonly unknown[]>();
  private palette: Palette = LIGHT;
  private ratio = 1;
  private frame = 0;
  private readonly unsubscribe: () => void;

  constructor(
    container: HTMLDivElement,
    private readonly editor: Editor,
  ) {
    this.stage = new Konva.Stage({ container, width: 1, height: 1, listening: false });
    const paint: Record<LayerName, (context: Context, state: EditorState) => void> = {
      ground: (context, state) => paintGround(context, this.input(state)),
      bodies: (context, state) => this.paintBodies(context, state),
      labels: (context, state) => this.paintLabels(context, state),
      overlay: (context, state) => paintOverlay(context, state, this.palette, this.ratio),
    };
    for (const name of NAMES) {
      const layer = new Konva.Layer({ listening: false });
      const sceneFunc = (konvaContext: Konva.Context) => {
        const context = konvaContext._context as Context;
        context.save();
        paint[name](context, editor.store.getState());
        context.restore();
      };
      layer.add(new Konva.Shape({ sceneFunc, listening: false, perfectDrawEnabled: false }));
      this.stage.add(layer);
      this.layers.set(name, layer);
    }
    this.unsubscribe = editor.store.subscribe(() => this.ask());
  }

  private input(state: EditorState) {
    const { plan, setupId, layout } = committedLive(state);
    return { plan, setupId, layout, view: state.view, size: state.size, ratio: this.ratio, palette: this.palette };
  }

  private paintBodies(context: Context, state: EditorState): void {
    const { plan, setupId, layout } = committedLive(state);
    const moving = new Set(state.preview?.moving);
    const marks = sceneMarks(plan, setupId, layout, (id) => !moving.has(id));
    const options = { palette: this.palette, pxPerMm: state.view.zoom };
    planSpace(context, state.view, state.size, this.ratio);
    paintMarks(context, marks, options);
    paintCovered(context, marks, options);
  }

  private paintLabels(context: Context, state: EditorState): void {
    const { plan, setup, setupId, layout } = committedLive(state);
    const own = namedOnTop(state);
    const moving = new Set(state.preview?.moving);
    const bodies = layout.bodies.filter(({ piece }) => !own.has(piece) && !moving.has(piece));
    context.setTransform(this.ratio, 0, 0, this.ratio, 0, 0);
    const { view, size } = state;
    const letters = sceneMarks(plan, setupId, layout, (id) => !moving.has(id)).filter(isText);
    const { palette } = this;
    paintNames(context, { setup, layout: { ...layout, bodies }, view, size, palette, letters, always: new Set() });
    paintLetters(context, letters, view, size, palette);
    paintRulers(context, this.input(state));
  }

  setLook(look: 'light' | 'dark'): void {
    this.palette = look === 'dark' ? DARK : LIGHT;
    this.repaint();
  }

  /** Everything again: another look, a typeface that has come. */
  repaint(): void {
    this.shown.clear();
    this.ask();
  }

  private ask(): void {
    if (this.frame === 0) this.frame = requestAnimationFrame(() => this.draw());
  }

  private draw(): void {
    this.frame = 0;
    const state = this.editor.store.getState();
    const { width, height } = state.size;
    if (width === 0 || height === 0) return;
    const ratio = Math.min(MOST_RATIO, window.devicePixelRatio || 1);
    // Konva does not notice a window that moved to another screen.
    if (ratio !== this.ratio || this.stage.width() !== width || this.stage.height() !== height) {
      this.ratio = ratio;
      for (const layer of this.layers.values()) layer.getCanvas().setPixelRatio(ratio);
      this.stage.size({ width, height });
      this.shown.clear();
    }
    for (const name of NAMES) {
      const now = SHOWS[name](state);
      const before = this.shown.get(name);
      if (before && same(now, before)) continue;
      this.shown.set(name, now);
      this.layers.get(name)!.draw();
    }
  }

  destroy(): void {
    this.unsubscribe();
    cancelAnimationFrame(this.frame);
    this.stage.destroy();
  }
}
