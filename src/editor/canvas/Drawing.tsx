/**
 * The drawing on the screen: four layers, each repainted only when what it shows has changed.
 *
 *   ground   grid, riser, centre line, dimensions: the plan and the view
 *   bodies   pieces from low to high, without those that a gesture moves
 *   labels   names, and the rulers above everything that scrolls
 *   overlay  the gesture's pieces, selection, handles, gaps, flags: each frame of a gesture, and nothing else
 *
 * Every layer is a component that takes from the editor's state what it shows. Nodes have names, by which tests find them; none
 * listens: what lies under the pointer is asked of the exact bodies (state/picking.ts) and of the grips' places (pointers.ts).
 */
import Konva from 'konva/lib/Core';
import { memo, type Ref, useEffect, useImperativeHandle, useLayoutEffect, useMemo, useRef, useState } from 'react';
import { Layer, Stage } from 'react-konva/es/ReactKonvaCore';
import { useShallow } from 'zustand/react/shallow';
import { Boundary } from '../state/Boundary.tsx';
import { liveOf } from '../state/live.ts';
import type { Look } from '../state/look.ts';
import { pieceMarks, runsOf } from '../state/marks.ts';
import { type Editor, namedOnTop, useEditor } from '../state/store.ts';
import { isText, paintGround, paintRulers } from './ground.ts';
import { paintLetters, paintNames } from './names.ts';
import { Overlay } from './Overlay.tsx';
import { Painting, type Paper, PieceRun, planAttrs } from './Painting.tsx';
import { paintCovered } from './paint.ts';
import { DARK, LIGHT } from './palette.ts';

/** More device pixels than these cost time and show nothing. */
const MOST_RATIO = 3;
const ratioNow = () => Math.min(MOST_RATIO, window.devicePixelRatio || 1);
Konva.pixelRatio = ratioNow();

/** Konva does not notice a window that moved to another screen, nor the page's zoom. */
function usePixelRatio(): number {
  const [ratio, setRatio] = useState(ratioNow);
  useEffect(() => {
    const query = matchMedia(`(resolution: ${window.devicePixelRatio}dppx)`);
    const changed = () => setRatio(ratioNow());
    query.addEventListener('change', changed, { once: true });
    return () => query.removeEventListener('change', changed);
  });
  return ratio;
}

/** Another number when typefaces have come: text that was painted before is painted again. */
function useTypefaces(): number {
  const [count, setCount] = useState(0);
  useEffect(() => {
    let isHere = true;
    void document.fonts?.ready.then(() => isHere && setCount(1));
    return () => {
      isHere = false;
    };
  }, []);
  return count;
}

export interface DrawingProps {
  readonly editor: Editor;
  readonly look: Look;
  readonly ref: Ref<Konva.Stage>;
}

export const Drawing = memo(function Drawing({ editor, look, ref }: DrawingProps) {
  const stage = useRef<Konva.Stage>(null);
  const size = useEditor(editor, (state) => state.size);
  const ratio = usePixelRatio();
  const typefaces = useTypefaces();
  // biome-ignore lint/correctness/useExhaustiveDependencies: new typefaces make a new paper
  const paper = useMemo(
    (): Paper => ({ size, ratio, palette: look === 'dark' ? DARK : LIGHT }),
    [size, ratio, look, typefaces],
  );
  useImperativeHandle(ref, () => stage.current!, []);
  // A canvas that changes its size is empty: it is painted before the browser shows it.
  useLayoutEffect(() => {
    for (const layer of stage.current?.getLayers() ?? []) layer.getCanvas().setPixelRatio(paper.ratio);
    stage.current?.draw();
  }, [paper]);
  const { width, height } = size;
  return (
    <Stage ref={stage} width={Math.max(1, width)} height={Math.max(1, height)} listening={false}>
      <Boundary onError={editor.fail}>
        <Ground editor={editor} paper={paper} />
        <Bodies editor={editor} paper={paper} />
        <Labels editor={editor} paper={paper} />
        <Overlay editor={editor} paper={paper} />
      </Boundary>
    </Stage>
  );
});

interface LayerProps {
  readonly editor: Editor;
  readonly paper: Paper;
}

/** The plan as it is, without what a gesture tries. */
const useCommitted = (editor: Editor) =>
  useEditor(
    editor,
    useShallow(({ history, setupId, view }) => ({ live: liveOf(history.plan, setupId), view })),
  );

const useMoving = (editor: Editor) => useEditor(editor, ({ preview }) => preview?.moving);

const Ground = memo(function Ground({ editor, paper }: LayerProps) {
  const { live, view } = useCommitted(editor);
  return (
    <Layer name="ground" listening={false}>
      <Painting name="paper" paint={(context) => paintGround(context, { ...live, ...paper, view })} />
    </Layer>
  );
});

const Bodies = memo(function Bodies({ editor, paper: { size, palette } }: LayerProps) {
  const { live, view } = useCommitted(editor);
  const moving = useMoving(editor);
  const runs = useMemo(() => runsOf(live), [live]);
  const nodes = useMemo(() => {
    const away = new Set(moving);
    const here = runs.filter(({ piece }) => !away.has(piece));
    const covered = here.flatMap(({ marks }) => marks.filter((mark) => mark.covered === 'dashed'));
    return [
      ...here.map((run) => <PieceRun key={run.key} run={run} palette={palette} />),
      <Painting
        key="covered"
        name="covered"
        paint={(context, scale) => paintCovered(context, covered, { palette, pxPerMm: scale })}
      />,
    ];
  }, [runs, moving, palette]);
  return (
    <Layer name="bodies" listening={false} {...planAttrs(view, size)}>
      {nodes}
    </Layer>
  );
});

const Labels = memo(function Labels({ editor, paper }: LayerProps) {
  const { live, view } = useCommitted(editor);
  const moving = useMoving(editor);
  // What moves or is chosen is named in the overlay.
  const onTop = useEditor(editor, useShallow(namedOnTop));
  const { setup, layout } = live;
  const { size, palette } = paper;
  const away = new Set(moving);
  const without = new Set([...away, ...onTop]);
  return (
    <Layer name="labels" listening={false}>
      <Painting
        name="names"
        paint={(context) => {
          const bodies = layout.bodies.filter(({ piece }) => !without.has(piece));
          const here = setup.order.filter((id) => !away.has(id));
          const letters = here.flatMap((id) => pieceMarks(live, id).filter(isText));
          const always = new Set<string>();
          paintNames(context, { setup, layout: { ...layout, bodies }, view, size, palette, letters, always });
          paintLetters(context, letters, view, size, palette);
        }}
      />
      <Painting name="rulers" paint={(context) => paintRulers(context, { ...live, ...paper, view })} />
    </Layer>
  );
});
