/**
 * Above the kit: what is chosen or under the pointer, what a gesture moves, handles, live gaps, numbered flags, the measure, the
 * marquee. Each is a node with a name; handles and flags are grips, which a press takes hold of.
 */
import { Fragment, memo, type ReactNode } from 'react';
import { Group, Layer } from 'react-konva/es/ReactKonvaCore';
import { figureMarks, reachRings } from '../../drawing/figure.ts';
import { boxOf } from '../../geometry/support.ts';
import { formatLength } from '../../units.ts';
import { valueText } from '../../words/sentences.ts';
import { findingKey } from '../state/findingRows.ts';
import { handleKey, handlesOf } from '../state/handles.ts';
import { gapOfPieces, leastContact, nearGaps } from '../state/live.ts';
import { pieceMarks, runsOf } from '../state/marks.ts';
import { type Editor, type EditorState, namedOnTop, shownLive, useEditor } from '../state/store.ts';
import { screenPoint } from '../state/view.ts';
import { flagsOf, paintFlag, paintGap, paintHandle, paintMarquee, paintModule, paintRing } from './annotations.ts';
import { paintNames } from './names.ts';
import { Painting, type Paper, PieceRun, planAttrs } from './Painting.tsx';
import { outlineOnly } from './paint.ts';
import type { Grip } from './pointers.ts';
import { paintStanding, standingOf } from './stability.ts';

/** While something is dragged, so many gaps are shown at the most. */
const LIVE_GAPS = 6;

/** Nearly all of the state is shown here, and what is not changes by single presses. */
const everything = (state: EditorState): EditorState => state;

interface OverlayProps {
  readonly editor: Editor;
  readonly paper: Paper;
}

export const Overlay = memo(function Overlay({ editor, paper }: OverlayProps) {
  const shown = useEditor(editor, everything);
  const { view, selection, preview, measured } = shown;
  const { size, palette } = paper;
  const live = shownLive(shown);
  const { setup, layout } = live;
  // The chosen finding, as the checks say it now.
  const finding =
    shown.finding === null || preview
      ? null
      : (live.checked.findings.find((one) => findingKey(one) === shown.finding) ?? null);
  const lit = finding ? palette.ink[finding.state] : palette.accent;
  const hovered = shown.hover && !preview && !selection.includes(shown.hover) ? [shown.hover] : [];
  const onTop = namedOnTop(shown);
  const { figure } = layout;
  // What is chosen and struck with sticks: how far they get at its height.
  const struck =
    selection.length === 1 && !preview ? live.checked.spots.find(({ piece }) => piece === selection[0]) : undefined;
  const seatedMarks =
    figure && shown.legs ? [...figureMarks(figure), ...(struck ? reachRings(figure, struck.at[2]) : [])] : [];
  const at = (x: number, y: number) => screenPoint(view, size, x, y);

  /** Pieces drawn in one colour, wider: chosen, or spoken of by the chosen finding. */
  const light = (as: string, ids: readonly string[], ink: string) =>
    ids
      .filter((id) => Object.hasOwn(setup.pieces, id))
      .map((id) => (
        <Painting
          key={`${as} ${id}`}
          name={`${as}:${id}`}
          paint={(context, scale) =>
            outlineOnly(context, pieceMarks(live, id), { palette, pxPerMm: scale, ink, widen: 2 })
          }
        />
      ));
  const { units } = live.plan;
  const say = (mm: number) => (mm > 0 ? formatLength(mm, units) : 'meet');
  const gap = (name: string, [x0, y0, x1, y1]: readonly number[], text: string, ink: string): ReactNode => {
    return (
      <Painting
        key={name}
        name={name}
        paint={(context) => paintGap(context, at(x0, y0), at(x1, y1), text, ink, palette)}
      />
    );
  };
  const [first, picked] = measured;
  const second = picked ?? (shown.tool === 'measure' && shown.hover !== first ? shown.hover : null);
  const between = first !== undefined && second !== null ? gapOfPieces(live, first, second) : null;
  const { marquee } = shown;

  return (
    <Layer name="overlay" listening={false}>
      <Group {...planAttrs(view, size)}>
        {preview && runsOf(live, preview.moving).map((run) => <PieceRun key={run.key} run={run} palette={palette} />)}
        {seatedMarks.length > 0 && (
          <Painting
            name="drummer"
            paint={(context, scale) =>
              outlineOnly(context, seatedMarks, { palette, pxPerMm: scale, ink: palette.ink.faint })
            }
          />
        )}
        {light('hover', hovered, palette.accent)}
        {light('selected', selection, lit)}
        {light('measured', measured, palette.accent)}
      </Group>
      {selection.length > 0 && (
        <Painting
          name="standing"
          paint={(context) => paintStanding(context, standingOf(live, selection), live, { view, size }, palette)}
        />
      )}
      {onTop.length > 0 && (
        <Painting
          name="names"
          paint={(context) => {
            const always = new Set(onTop);
            const here = new Set([...onTop, ...(preview?.moving ?? [])]);
            const bodies = layout.bodies.filter(({ piece }) => here.has(piece));
            paintNames(context, { setup, layout: { ...layout, bodies }, view, size, palette, letters: [], always });
          }}
        />
      )}
      {preview &&
        nearGaps(live, preview.moved, LIVE_GAPS).map(({ a, b, gapMm, line, state }) =>
          gap(`gap:${a.piece}:${b.piece}`, line, say(gapMm), palette.ink[state]),
        )}
      {preview?.riser && (
        <Painting
          name={preview.riser.seams.length > 0 ? 'module flush' : 'module'}
          paint={(context) => paintModule(context, preview.riser!, at, palette)}
        />
      )}
      {preview && <Edge shown={shown} paper={paper} />}
      {finding &&
        'line' in finding &&
        gap(
          'gap',
          finding.line,
          finding.unit === 'mm' ? say(finding.value) : valueText(finding.value, finding.unit, units),
          lit,
        )}
      {!preview && <Grips shown={shown} paper={paper} />}
      {between && gap('tape', between.line, say(between.gap), palette.accent)}
      {marquee && (
        <Painting
          name="marquee"
          paint={(context) =>
            paintMarquee(context, at(marquee.minX, marquee.maxY), at(marquee.maxX, marquee.minY), palette)
          }
        />
      )}
    </Layer>
  );
});

interface PartProps {
  readonly shown: EditorState;
  readonly paper: Paper;
}

/** Flags of findings, and the handles of what is chosen. */
function Grips({ shown, paper: { size, palette } }: PartProps) {
  const { view, selection, tool, isReadOnly, lent } = shown;
  const live = shownLive(shown);
  const handles =
    tool === 'select' && !isReadOnly
      ? [...(lent?.handles(live) ?? []), ...handlesOf(live.setup, live.layout, selection, view.zoom)]
      : [];
  return (
    <Fragment>
      {flagsOf(live, view, size, shown.finding).map((flag) => (
        <Painting
          key={`flag ${flag.number}`}
          name={`grip flag:${flag.number}`}
          x={flag.at.x}
          y={flag.at.y}
          grip={{ kind: 'flag', finding: flag.finding } satisfies Grip}
          paint={(context) => paintFlag(context, flag, shown.finding === findingKey(flag.finding), palette)}
        />
      ))}
      {handles.map((handle) => {
        const { x, y } = screenPoint(view, size, handle.x, handle.y);
        const pivot = 'about' in handle ? screenPoint(view, size, handle.about.x, handle.about.y) : { x, y };
        return (
          <Painting
            key={handleKey(handle)}
            name={`grip handle:${handleKey(handle)}`}
            x={x}
            y={y}
            grip={{ kind: 'handle', handle } satisfies Grip}
            paint={(context) => paintHandle(context, handle, { x: pivot.x - x, y: pivot.y - y }, palette)}
          />
        );
      })}
    </Fragment>
  );
}

/** From the riser's edge to the contact that comes nearest to it; one that stands over it is ringed. */
function Edge({ shown, paper: { size, palette } }: PartProps) {
  const live = shownLive(shown);
  const { view } = shown;
  const least = leastContact(live);
  if (!least || !live.layout.deck) return null;
  const { marginMm, body, line } = least;
  const { edgeMarginMm } = live.layout.deck;
  const ink = marginMm < 0 ? palette.ink.blocked : marginMm < edgeMarginMm ? palette.ink.tight : palette.ink.clear;
  const text = `Edge ${formatLength(marginMm, live.plan.units)}`;
  return (
    <Painting
      name="edge"
      paint={(context) => {
        if (line) {
          const [a, b] = [screenPoint(view, size, line[0], line[1]), screenPoint(view, size, line[2], line[3])];
          paintGap(context, a, b, text, ink, palette);
          return;
        }
        const { minX, maxX, minY, maxY } = boxOf(body.shape);
        const r = Math.max(7, (Math.max(maxX - minX, maxY - minY) / 2) * view.zoom + 4);
        paintRing(context, screenPoint(view, size, (minX + maxX) / 2, (minY + maxY) / 2), r, text, ink, palette);
      }}
    />
  );
}
