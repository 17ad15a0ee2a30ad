/** The drawing's lower right corner, as a drawing has it: what it is, its scale, and the numbers that decide. */

import { formatArea, formatLength, formatNumber } from '../../../units.ts';
import { pieceName } from '../../../words/names.ts';
import { worstOf } from '../../../words/readingRows.ts';
import { marginText } from '../../../words/riserWords.ts';
import { STATE_WORDS } from '../../../words/states.ts';
import { gapOfPieces, liveOf } from '../../state/live.ts';
import { usePanel } from '../../state/panelContext.ts';
import { type Editor, useEditor } from '../../state/store.ts';
import { scaleOf } from '../../state/view.ts';
import { StateMark } from '../shared/StateMark.tsx';
import { unbroken } from '../shared/unbroken.ts';

interface CellProps {
  readonly name: string;
  readonly children: React.ReactNode;
  readonly wide?: boolean;
}

function Cell({ name, children, wide = false }: CellProps) {
  return (
    <div className={wide ? 'block-cell block-wide' : 'block-cell'}>
      <dt>{name}</dt>
      <dd>{children}</dd>
    </div>
  );
}

export function TitleBlock({ editor }: { readonly editor: Editor }) {
  const { plan, setup, setupId, units } = usePanel();
  const scale = useEditor(editor, ({ view }) => formatNumber(scaleOf(view), scaleOf(view) < 10 ? 1 : 0));
  const measured = useEditor(editor, (state) => state.measured);
  const tool = useEditor(editor, (state) => state.tool);
  const live = liveOf(plan, setupId);
  const { readings, findings } = live.checked;
  const { state: worst, count } = worstOf(findings);
  const { riserMargin, floorHullArea, shadowArea, smallestRectangle: box } = readings;
  const between = measured.length === 2 ? gapOfPieces(live, measured[0], measured[1]) : null;
  const names = measured.map((id) => pieceName(plan, setupId, id));
  return (
    <section className="title-block" aria-label="The drawing's numbers">
      {(tool === 'measure' || between !== null) && (
        <p className="measure-line" role="status">
          {between === null
            ? names.length === 1
              ? `${names[0]} and ... choose the second piece.`
              : 'Choose two pieces to measure between.'
            : `${names[0]} to ${names[1]}: ${between.gap > 0 ? `${formatLength(between.gap, units)} apart` : 'one above the other, or touching'} in plan.`}
        </p>
      )}
      <dl className="block">
        <Cell name="Setup" wide>
          {setup.name || 'Unnamed'}
        </Cell>
        <Cell name="Scale">1 : {scale}</Cell>
        <Cell name="Floor">{floorHullArea === null ? '–' : formatArea(floorHullArea, units)}</Cell>
        <Cell name="Shadow">{shadowArea === null ? '–' : formatArea(shadowArea, units)}</Cell>
        <Cell name="Least box">
          {box === null ? '–' : unbroken(`${formatLength(box.width, units)} × ${formatLength(box.depth, units)}`)}
        </Cell>
        <Cell name="Riser margin">{riserMargin === null ? 'no riser' : marginText(riserMargin, units)}</Cell>
        <Cell name="State">
          <StateMark state={worst} /> {worst === 'clear' ? '' : `${count} `}
          {STATE_WORDS[worst].toLowerCase()}
        </Cell>
      </dl>
    </section>
  );
}
