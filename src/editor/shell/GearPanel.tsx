/** The gear drawer on the store: adds at a free place in sight, or where it is dragged to. */
import { CATALOGUE } from '../../gear/catalogue.ts';
import { type Placeable, placedKind } from '../../gear/kinds.ts';
import type { Piece } from '../../plan/schema.ts';
import { freePlace } from '../panels/gear/freePlace.ts';
import { GearDrawer } from '../panels/gear/GearDrawer.tsx';
import { newItem, newRack, type RackForm } from '../panels/gear/newPiece.ts';
import { allGear } from '../panels/gear/shelf.ts';
import { dragGear } from './gearDrag.ts';
import { useWorkplace } from './workplace.ts';

export interface GearPanelProps {
  /** Called when a piece was added: a small screen closes the drawer then. */
  readonly onAdded?: () => void;
}

export function GearPanel({ onAdded }: GearPanelProps) {
  const { editor } = useWorkplace();
  const add = (piece: Piece | null) => {
    if (piece === null) return editor.say('Neither the catalogue nor this plan has tubes for that rack.');
    if (editor.run({ type: 'addPiece', setup: editor.committed().setupId, piece }) !== null) return;
    editor.select([piece.id]);
    onAdded?.();
  };
  const addGear = (gear: Placeable) => {
    const { layout, setup } = editor.committed();
    const { view } = editor.store.getState();
    const [x, y] = freePlace(layout.bodies, view.xMm, view.yMm, placedKind(gear).reachMm(gear));
    add(newItem(gear, x, y, setup.pieces));
  };
  const addRack = (form: RackForm) => {
    const { view } = editor.store.getState();
    const gear = allGear(editor.plan().gear, CATALOGUE);
    add(newRack(form, gear, Math.round(view.xMm), Math.round(view.yMm), editor.committed().setup.pieces));
  };
  return <GearDrawer onAdd={addGear} onAddRack={addRack} onDrag={(gear, pointer) => dragGear(editor, gear, pointer)} />;
}
