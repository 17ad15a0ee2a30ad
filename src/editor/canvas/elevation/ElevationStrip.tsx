/**
 * A strip beneath the plan: what is selected with all that it is joined to, or the whole kit, seen level, at the plan's own scale.
 * Seen from the audience it stands true beneath the plan. Heights are dragged here; they are typed beside the drawing.
 */
import { X } from 'lucide-react';
import { useEffect, useRef } from 'react';
import { Button, ToggleButton, ToggleButtonGroup } from 'react-aria-components';
import {
  type Elevation,
  type ElevationSide,
  elevationOf,
  gripAt,
  type HeightGrip,
} from '../../../drawing/elevation.ts';
import { estimateText } from '../../../drawing/textWidth.ts';
import { formatLength } from '../../../units.ts';
import { pieceName } from '../../../words/names.ts';
import type { Look } from '../../state/look.ts';
import { usePanel } from '../../state/panelContext.ts';
import { stepsOf } from '../../state/steps.ts';
import { committedLive, type Editor, shownLive, useEditor } from '../../state/store.ts';
import { planPoint, type Size, scaleOf, type View } from '../../state/view.ts';
import { DARK, LIGHT } from '../palette.ts';
import { watchSurface } from '../surface.ts';
import { heightCommand } from './heightDrag.ts';
import { paintElevation } from './paintElevation.ts';
import './elevation.css';

/** Under the deck's line, and under a riser's foot, CSS px. */
const BELOW_PX = 26;
const BELOW_FOOT_PX = 10;
const MOST_BELOW = 0.5;
/** Fingers and mice miss by so much. */
const SLACK_PX = 5;
/** Less is a click. */
const STILL_PX = 3;

interface Hold {
  readonly grip: HeightGrip;
  readonly grips: readonly HeightGrip[];
  readonly fromY: number;
  moved: boolean;
}

/** Paints itself whenever the editor's state changes, and drags heights. Free of React, as the plan's canvas is. */
class Strip {
  private frame = 0;
  private look: Look = 'light';
  private size: Size = { width: 0, height: 0 };
  private elevation: Elevation | null = null;
  private hover: HeightGrip | null = null;
  private hold: Hold | null = null;
  /** How far the paper was pulled down, CSS px: tall kits do not fit into a strip. */
  private pulledPx = 0;
  private pullFrom: number | null = null;
  private readonly events = new AbortController();
  private readonly stop: () => void;

  constructor(
    private readonly canvas: HTMLCanvasElement,
    private readonly editor: Editor,
  ) {
    this.stop = editor.store.subscribe(() => this.ask());
    const { signal } = this.events;
    canvas.addEventListener('pointerdown', this.down, { signal });
    canvas.addEventListener('pointermove', this.move, { signal });
    canvas.addEventListener('pointerup', this.up, { signal });
    canvas.addEventListener('pointercancel', this.cancel, { signal });
    canvas.addEventListener('pointerleave', this.leave, { signal });
  }

  readonly setSize = (size: Size): void => {
    this.size = size;
    this.ask();
  };

  setLook(look: Look): void {
    this.look = look;
    this.ask();
  }

  /** True when a drag was let go of. */
  readonly letGo = (): boolean => {
    if (this.hold === null) return false;
    this.hold = null;
    this.editor.previewCommand(null);
    return true;
  };

  destroy(): void {
    this.stop();
    cancelAnimationFrame(this.frame);
    this.events.abort();
  }

  ask(): void {
    if (this.frame === 0) this.frame = requestAnimationFrame(() => this.draw());
  }

  private view(): View {
    const { view, elevation: side } = this.editor.store.getState();
    const zoom = view.zoom;
    const box = this.elevation?.list.box;
    // From the side nothing stands beneath the plan's own x: the middle of what is shown is in the middle.
    const xMm = side !== 'audience' && box ? (box.minX + box.maxX) / 2 : view.xMm;
    const { plan, setup } = committedLive(this.editor.store.getState());
    const riserMm = setup.riser === null ? 0 : (plan.risers[setup.riser]?.heightMm ?? 0);
    // A riser stands on its foot in the strip; a very high one leaves the kit most of the room.
    const below = Math.max(BELOW_PX, Math.min(riserMm * zoom + BELOW_FOOT_PX, this.size.height * MOST_BELOW));
    return { zoom, xMm, yMm: (this.size.height / 2 - below + this.pulledPx) / zoom };
  }

  private draw(): void {
    this.frame = 0;
    const { width, height } = this.size;
    const context = this.canvas.getContext('2d');
    const state = this.editor.store.getState();
    if (width === 0 || height === 0 || context === null || state.elevation === null) return;
    const ratio = Math.min(3, window.devicePixelRatio || 1);
    if (this.canvas.width !== Math.round(width * ratio) || this.canvas.height !== Math.round(height * ratio)) {
      this.canvas.width = Math.round(width * ratio);
      this.canvas.height = Math.round(height * ratio);
    }
    const { plan, setupId, layout } = shownLive(state);
    this.elevation = elevationOf(plan, setupId, layout, {
      side: state.elevation,
      selected: state.selection,
      units: plan.units,
      scale: scaleOf(state.view),
      measure: estimateText,
    });
    const shown = this.hold?.grip ?? this.hover;
    // The same thing in what was just drawn, which may have moved.
    const grip =
      (shown && this.elevation.grips.find(({ piece, bar }) => piece === shown.piece && bar === shown.bar)) ?? null;
    paintElevation(context, {
      elevation: this.elevation,
      view: this.view(),
      size: this.size,
      ratio,
      palette: this.look === 'dark' ? DARK : LIGHT,
      selected: state.selection,
      grip,
      gripText: grip ? `${grip.label}: ${formatLength(grip.heightMm, plan.units)}` : '',
    });
  }

  private gripUnder(event: PointerEvent): HeightGrip | null {
    if (this.elevation === null) return null;
    const { left, top } = this.canvas.getBoundingClientRect();
    const at = planPoint(this.view(), this.size, event.clientX - left, event.clientY - top);
    const { view, selection } = this.editor.store.getState();
    return gripAt(this.elevation, at.x, at.y, SLACK_PX / view.zoom, selection);
  }

  private readonly down = (event: PointerEvent) => {
    if (event.button !== 0) return;
    this.canvas.setPointerCapture(event.pointerId);
    const grip = this.gripUnder(event);
    if (grip === null) this.pullFrom = event.clientY - this.pulledPx;
    else this.hold = { grip, grips: this.elevation?.grips ?? [], fromY: event.clientY, moved: false };
    this.ask();
  };

  private readonly move = (event: PointerEvent) => {
    const { hold } = this;
    if (hold === null) {
      if (this.pullFrom !== null) this.pulledPx = Math.max(0, event.clientY - this.pullFrom);
      else {
        this.hover = this.gripUnder(event);
        this.canvas.style.cursor = this.hover ? 'ns-resize' : '';
      }
      this.ask();
      return;
    }
    const up = hold.fromY - event.clientY;
    if (!hold.moved && Math.abs(up) < STILL_PX) return;
    hold.moved = true;
    const { view, snaps, carries } = this.editor.store.getState();
    const { setup, plan } = this.editor.committed();
    const { coarseMm, fineMm } = stepsOf(plan.units);
    this.editor.previewCommand(
      heightCommand({ plan, setup }, hold.grip, {
        upMm: up / view.zoom,
        stepMm: snaps || event.shiftKey ? coarseMm : fineMm,
        carries: carries !== event.altKey,
        grips: hold.grips,
      }),
    );
  };

  private readonly up = () => {
    const { hold } = this;
    this.hold = null;
    this.pullFrom = null;
    if (hold === null) return;
    if (hold.moved) this.editor.commitPreview();
    else this.editor.select([hold.grip.piece]);
    this.ask();
  };

  private readonly cancel = () => {
    this.pullFrom = null;
    this.letGo();
  };

  private readonly leave = () => {
    if (this.hover === null) return;
    this.hover = null;
    this.ask();
  };
}

export interface ElevationStripProps {
  readonly editor: Editor;
  readonly look: Look;
}

const SIDES: readonly { readonly id: ElevationSide; readonly name: string }[] = [
  { id: 'audience', name: 'From the audience' },
  { id: 'side', name: 'From stage left' },
  { id: 'otherSide', name: 'From stage right' },
];

export function ElevationStrip({ editor, look }: ElevationStripProps) {
  const { plan, setup, setupId, units } = usePanel();
  const side = useEditor(editor, (state) => state.elevation);
  const selection = useEditor(editor, (state) => state.selection);
  const canvas = useRef<HTMLCanvasElement>(null);
  const strip = useRef<Strip | null>(null);

  useEffect(() => {
    const element = canvas.current!;
    const made = new Strip(element, editor);
    strip.current = made;
    const stopWatching = watchSurface(element, editor, made.letGo, made.setSize);
    void document.fonts?.ready.then(() => made.ask());
    // The plan has lost a third of its room: it is brought into sight again, which gives the strip a scale that suits it too.
    const fit = requestAnimationFrame(() => requestAnimationFrame(editor.fitView));
    return () => {
      cancelAnimationFrame(fit);
      stopWatching();
      made.destroy();
      strip.current = null;
    };
  }, [editor]);
  useEffect(() => strip.current?.setLook(look), [look]);

  const heights = selection.map((id) => {
    const piece = setup.pieces[id];
    const name = pieceName(plan, setupId, id);
    if (piece?.kind === 'rack') {
      const bars = piece.spans.flatMap((span) => span.bars.map(({ heightMm }) => formatLength(heightMm, units)));
      return `${name}: bars at ${bars.join(', ')}`;
    }
    const height = piece?.place.heightMm;
    return height === undefined ? name : `${name} at ${formatLength(height, units)}`;
  });
  return (
    <section className="elevation" aria-label="Side elevation">
      <canvas
        ref={canvas}
        className="elevation-canvas"
        role="img"
        aria-label={heights.length === 0 ? 'The whole kit seen level.' : `Seen level: ${heights.join('; ')}.`}
        tabIndex={0}
      />
      <div className="elevation-tools">
        <ToggleButtonGroup
          className="elevation-sides"
          aria-label="Seen from"
          orientation="vertical"
          selectionMode="single"
          disallowEmptySelection
          selectedKeys={[side ?? 'audience']}
          onSelectionChange={([next]) => editor.set({ elevation: next as ElevationSide })}
        >
          {SIDES.map(({ id, name }) => (
            <ToggleButton key={id} id={id} className="button button-quiet">
              {name}
            </ToggleButton>
          ))}
        </ToggleButtonGroup>
        <Button
          className="icon-button"
          aria-label="Close the side elevation"
          onPress={() => editor.set({ elevation: null })}
        >
          <X />
        </Button>
      </div>
    </section>
  );
}
