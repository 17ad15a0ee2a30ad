/** The fields of a drum, cymbal, pedal, throne, stand or stage item, and what a rack shares with them: its name, place and note. */
import { isPlaceable, ownHeightMm, placedKind } from '../../../gear/kinds.ts';
import type { Gear } from '../../../gear/schema.ts';
import { seatedOn, standHeight } from '../../../layout/seats.ts';
import type { Command } from '../../../plan/commands/index.ts';
import type { SetPiece } from '../../../plan/commands/pieces.ts';
import { type Item, type Piece, planSchema } from '../../../plan/schema.ts';
import { placeCarrying } from '../../state/nudge.ts';
import { schemaAt } from '../fields/bounds.ts';
import { type FieldTable, type Here, patched, type Row } from '../fields/rows.ts';
import { gearOfPlan } from '../gear/shelf.ts';
import { gearChoices } from '../shared/gearChoices.ts';

export interface ItemHere extends Here {
  readonly item: Item;
  readonly gear: Gear | undefined;
}

/** Which item, in which setup. */
export type OneItem = Pick<ItemHere, 'setupId' | 'item'>;

export const setItem = ({ setupId, item }: OneItem, set: SetPiece['set']): SetPiece => ({
  type: 'setPiece',
  setup: setupId,
  piece: item.id,
  set,
});

/** The command for a piece's field. What hangs on it comes along where that is switched on. */
export function writePiece(
  { plan, setup, setupId, carries }: Here,
  piece: Piece,
  keys: readonly string[],
  value: unknown,
): Command {
  const [field, inner] = keys;
  if (field === 'name') return { type: 'renamePiece', setup: setupId, piece: piece.id, name: value as string };
  if (field === 'place') return placeCarrying(plan, setup, piece, { [inner]: value }, carries);
  return { type: 'setPiece', setup: setupId, piece: piece.id, set: patched(piece, keys, value) };
}

type AnyPiece<T> = Readonly<Record<'name' | 'load' | 'lock' | 'x' | 'y' | 'note', Row<T>>>;

/** Rows that every piece has, racks too. */
export const ofAnyPiece = <T>(): AnyPiece<T> => ({
  name: { as: 'words', path: 'name', label: 'Name', evenLocked: true },
  load: {
    as: 'words',
    path: 'load',
    label: 'Travels in',
    placeholder: 'by itself; cymbals together',
    evenLocked: true,
  },
  lock: { as: 'switch', path: 'locked', label: 'Locked in place', evenLocked: true },
  x: { path: 'place.xMm', label: 'From centre', note: '+ left' },
  y: { path: 'place.yMm', label: 'Upstage' },
  note: { as: 'words', path: 'note', label: 'Note', lines: 2, evenLocked: true },
});
const ANY = ofAnyPiece<ItemHere>();

/** What its kind says of a piece; null for gear that is not known. */
const placed = ({ gear }: ItemHere) => (gear !== undefined && isPlaceable(gear) ? placedKind(gear) : null);

export const ITEM = {
  schema: schemaAt(planSchema, 'setups.pieces.item'),
  record: ({ item }) => item,
  write: (here, keys, value) => writePiece(here, here.item, keys, value),
  isLocked: ({ item }) => item.locked === true,
  sections: {
    piece: [
      ANY.name,
      {
        as: 'choice',
        path: 'gear',
        label: 'Gear',
        choices: ({ plan, item, gear }) =>
          gearChoices(gearOfPlan(plan), ({ kind }) => gear === undefined || kind === gear.kind, item.gear),
      },
      { ...ANY.load, when: ({ gear }) => gear?.kind !== 'stageItem' },
      ANY.lock,
    ],
    place: [
      ANY.x,
      ANY.y,
      { path: 'place.headingDeg', label: 'Heading' },
      {
        path: 'place.heightMm',
        label: (here) => placed(here)?.heightWord ?? '',
        when: (here) => (placed(here)?.heightWord ?? null) !== null,
        otherwise: ({ plan, setup, item, gear }) =>
          gear?.kind === 'stand' ? standHeight(plan.gear, item, gear, seatedOn(setup).get(item.id)) : ownHeightMm(gear),
      },
      {
        path: 'place.tiltDeg',
        label: 'Tilt',
        note: 'back edge down',
        when: (here) => placed(here)?.mayTilt === true,
        otherwise: () => 0,
      },
      {
        path: 'legsTurnDeg',
        label: 'Legs turned',
        when: ({ gear }) => gear?.kind === 'stand' && (gear.base.form === 'tripod' || gear.base.form === 'twoLeg'),
        otherwise: () => 0,
      },
    ],
    second: [
      { path: 'second.xMm', label: 'To its side' },
      { path: 'second.yMm', label: 'Upstage' },
      { path: 'second.headingDeg', label: 'Turned' },
    ],
    note: [ANY.note],
  },
} satisfies FieldTable<ItemHere>;
