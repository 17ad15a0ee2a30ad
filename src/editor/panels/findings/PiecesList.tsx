/** Everything on the drawing as a list: the accessible twin of the canvas. */
import { Lock } from 'lucide-react';
import { useRef } from 'react';
import { ListBoxItem } from 'react-aria-components';
import type { Piece } from '../../../plan/schema.ts';
import { gearName } from '../../../words/names.ts';
import { usePanel } from '../../state/panelContext.ts';
import { useEditor } from '../../state/store.ts';
import { PickList } from '../shared/PickList.tsx';
import { heldText, picked, placeText, sameRows } from './pieceRows.ts';
import './findings.css';

/** What a row says. Its object stays while it says the same: the list box draws anew only what changed. */
interface PieceRow {
  readonly id: string;
  readonly piece: Piece;
  readonly gear: string;
  /** What holds it, in words; empty for what stands by itself. */
  readonly held: string;
}

const sameRow = (a: PieceRow, b: PieceRow): boolean => a.piece === b.piece && a.gear === b.gear && a.held === b.held;

export function PiecesList() {
  const { editor, plan, setup, units } = usePanel();
  const selection = useEditor(editor, (state) => state.selection);
  const pieces = setup.order.map((id) => setup.pieces[id]).filter((piece) => piece !== undefined);
  const before = useRef<ReadonlyMap<string, PieceRow>>(new Map());
  const rows = pieces.map((piece): PieceRow => {
    const gear = piece.kind === 'rack' ? 'Rack' : gearName(plan, piece.gear);
    const row = { id: piece.id, piece, gear, held: heldText(piece, setup) };
    const old = before.current.get(piece.id);
    return old !== undefined && sameRow(old, row) ? old : row;
  });
  before.current = new Map(rows.map((row) => [row.id, row]));
  /** The list's own set of the chosen rows: it knows where a range began. */
  const held = useRef<Set<string | number>>(new Set());
  if (!sameRows(held.current, selection)) held.current = new Set(selection);
  const isMore = useRef(false);
  const note = (event: { readonly shiftKey: boolean; readonly ctrlKey: boolean; readonly metaKey: boolean }) => {
    isMore.current = event.shiftKey || event.ctrlKey || event.metaKey;
  };
  return (
    <div onKeyDownCapture={note} onPointerDownCapture={note} onClickCapture={note}>
      <PickList
        className="pieces"
        aria-label="Pieces on the drawing"
        items={rows}
        count={rows.length}
        dependencies={[units]}
        selectionMode="multiple"
        selectedKeys={held.current}
        onSelectionChange={(keys) => {
          const ids = rows.map(({ id }) => id);
          held.current = picked(held.current, keys === 'all' ? new Set(ids) : keys, keys === 'all' || isMore.current);
          editor.select(ids.filter((id) => held.current.has(id)));
        }}
        renderEmptyState={() => (
          <div className="panel-empty">
            <p>There is nothing on the drawing yet.</p>
            <p>Take something from the gear drawer.</p>
          </div>
        )}
      >
        {({ piece, gear, held: holder }) => (
          <ListBoxItem className="piece-row" textValue={piece.name || 'Unnamed'}>
            <span className="piece-name">
              {piece.name || 'Unnamed'}
              {piece.locked === true && <Lock role="img" aria-hidden={false} aria-label="locked" />}
            </span>
            {gear !== piece.name && <span className="piece-gear">{gear}</span>}
            <span className="piece-place">
              {placeText(piece, units)}
              {holder !== '' && `; ${holder}`}
            </span>
          </ListBoxItem>
        )}
      </PickList>
    </div>
  );
}
