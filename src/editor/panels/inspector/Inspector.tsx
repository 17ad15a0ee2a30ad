/** The selected piece or pieces, everything about them in fields. */
import { Copy, Trash2 } from 'lucide-react';
import type { Piece } from '../../../plan/schema.ts';
import { usePanel } from '../../state/panelContext.ts';
import { useEditor } from '../../state/store.ts';
import { freeId, freeName } from '../gear/newPiece.ts';
import { IconButton } from '../shared/IconButton.tsx';
import { ItemInspector } from './ItemInspector.tsx';
import { NudgePad } from './NudgePad.tsx';
import { RackInspector } from './RackInspector.tsx';
import { SeveralFields } from './SeveralFields.tsx';
import './inspector.css';

/** A copy stands this far to stage left and upstage of its original, mm. */
const COPY_STEP_MM = 150;

export function Inspector() {
  const { editor, setup, setupId, run, isReadOnly } = usePanel();
  const selection = useEditor(editor, (state) => state.selection);
  const pieces = selection.map((id) => setup.pieces[id]).filter((piece): piece is Piece => piece !== undefined);
  if (pieces.length === 0)
    return (
      <div className="panel-empty">
        <p>Nothing is selected.</p>
        <p>Click a piece on the drawing, or choose one in the list of pieces. Then everything about it stands here.</p>
      </div>
    );
  const ids = pieces.map(({ id }) => id);
  const isLocked = pieces.some(({ locked }) => locked === true);

  const copy = () => {
    const taken = Object.keys(setup.pieces);
    const names = Object.values(setup.pieces).map(({ name }) => name);
    const copies = pieces.map((piece): Piece => {
      const id = freeId(piece.id.replace(/-\d+$/, ''), taken);
      const name = freeName(piece.name.replace(/ \d+$/, ''), names);
      taken.push(id);
      names.push(name);
      const { xMm, yMm } = piece.place;
      return { ...piece, id, name, place: { ...piece.place, xMm: xMm + COPY_STEP_MM, yMm: yMm + COPY_STEP_MM } };
    });
    const refusal = run({
      type: 'many',
      commands: copies.map((piece) => ({ type: 'addPiece', setup: setupId, piece })),
    });
    if (refusal === null) editor.select(copies.map(({ id }) => id));
  };
  const remove = () => {
    if (run({ type: 'removePieces', setup: setupId, pieces: ids }) === null) editor.select([]);
  };

  const [first] = pieces;
  return (
    <div className="inspector">
      <div className="panel-head">
        <h2>{pieces.length === 1 ? first.name || 'Unnamed piece' : `${pieces.length} pieces`}</h2>
        <IconButton icon={Copy} label="Duplicate" isDisabled={isReadOnly} onPress={copy} />
        <IconButton icon={Trash2} label="Remove" isDisabled={isReadOnly || isLocked} onPress={remove} />
      </div>
      <NudgePad pieces={pieces} isFixed={isReadOnly || isLocked} />
      {pieces.length > 1 && <SeveralFields key={ids.join(' ')} pieces={pieces} isFixed={isReadOnly || isLocked} />}
      {pieces.length === 1 &&
        // A fresh set of fields for each piece: what was typed for one must not land on the next.
        (first.kind === 'rack' ? (
          <RackInspector key={first.id} rack={first} />
        ) : (
          <ItemInspector key={first.id} item={first} />
        ))}
    </div>
  );
}
