/** Commands on pieces: where they are, what they are, and how they are held. */
import type { Draft } from 'immer';
import { gearOf } from '../../gear/catalogue.ts';
import { carrierPiece } from '../carriers.ts';
import { own } from '../places.ts';
import type { Item, Mount, Piece, Place, Tie } from '../schema.ts';
import { detach, forget, freeSockets } from './detach.ts';
import {
  findPiece,
  NOTHING_ASKED,
  type OnPiece,
  type OnSetup,
  type Rule,
  type RulesOf,
  refuseNewId,
  refusePieces,
  refuseSetup,
  writeFields,
} from './rule.ts';
import { socketSwap } from './socketSwap.ts';

/** Put pieces at places; fields left out stay. null for heightMm or tiltDeg: back to the gear's own. */
export interface PlacePieces extends OnSetup<'placePieces'> {
  readonly places: Readonly<Record<string, PlaceChange>>;
}

export interface PlaceChange {
  readonly xMm?: number;
  readonly yMm?: number;
  readonly headingDeg?: number;
  readonly heightMm?: number | null;
  readonly tiltDeg?: number | null;
}

/** `at`: its place in the order, from 0; left out, last. */
export interface AddPiece extends OnSetup<'addPiece'> {
  readonly piece: Piece;
  readonly at?: number;
}

/** What they held stays where it is, held by nothing. */
export interface RemovePieces extends OnSetup<'removePieces'> {
  readonly pieces: readonly string[];
}

export interface RenamePiece extends OnPiece<'renamePiece'> {
  readonly name: string;
}

/** Change fields of a piece; null takes an optional field away. A rack has only `load`, `locked` and `note` of these. */
export interface SetPiece extends OnPiece<'setPiece'> {
  readonly set: {
    readonly gear?: string;
    readonly mount?: Mount | null;
    readonly ties?: readonly Tie[] | null;
    readonly second?: NonNullable<Item['second']> | null;
    readonly legsTurnDeg?: number | null;
    readonly takes?: string | null;
    readonly mix?: string | null;
    readonly power?: NonNullable<Item['power']> | null;
    readonly load?: string | null;
    readonly locked?: boolean | null;
    readonly note?: string | null;
  };
}

export interface OrderPieces extends OnSetup<'orderPieces'> {
  readonly order: readonly string[];
}

export type PieceCommand = PlacePieces | AddPiece | RemovePieces | RenamePiece | SetPiece | OrderPieces;

const PLACE_FIELDS: readonly (keyof Place)[] = ['xMm', 'yMm', 'headingDeg', 'heightMm', 'tiltDeg'];
const PLACE_OPTIONAL = ['heightMm', 'tiltDeg'];
const ITEM_OPTIONAL = ['ties', 'second', 'legsTurnDeg', 'takes', 'mix', 'power', 'load', 'locked', 'note'];
const ITEM_FIELDS = ['gear', 'mount', ...ITEM_OPTIONAL];
const RACK_FIELDS = ['load', 'locked', 'note'];

const placePieces: Rule<PlacePieces> = {
  refuse: (plan, { setup, places }) => refusePieces(plan, setup, Object.keys(places)),
  apply(draft, { setup, places }) {
    for (const [id, change] of Object.entries(places))
      writeFields(draft.setups[setup].pieces[id].place, { ...change }, PLACE_FIELDS as string[], PLACE_OPTIONAL);
  },
};

const addPiece: Rule<AddPiece> = {
  refuse: (plan, { setup, piece }) =>
    refuseSetup(plan, setup) ?? refuseNewId('piece', piece.id, own(plan.setups[setup].pieces, piece.id) !== undefined),
  apply(draft, { setup, piece, at }) {
    const target = draft.setups[setup];
    target.pieces[piece.id] = piece as Draft<Piece>;
    target.order = inserted(target.order, piece.id, at);
  },
};

/** A list with one more entry; immer sees one new list, and so writes one patch. */
export function inserted(order: readonly string[], id: string, at: number | undefined): string[] {
  const index = at === undefined ? order.length : Math.min(Math.max(Math.trunc(at), 0), order.length);
  return [...order.slice(0, index), id, ...order.slice(index)];
}

const removePieces: Rule<RemovePieces> = {
  refuse: (plan, { setup, pieces }) => refusePieces(plan, setup, pieces),
  apply(draft, { setup, pieces }) {
    const gone = new Set(pieces);
    const target = draft.setups[setup];
    for (const id of gone) delete target.pieces[id];
    target.order = target.order.filter((id) => !gone.has(id));
    forget(draft, setup, gone);
    detach(draft, setup, (carrier) => gone.has(carrierPiece(carrier)));
  },
};

const renamePiece: Rule<RenamePiece> = {
  refuse: (plan, { setup, piece }) => findPiece(plan, setup, piece).refusal,
  apply(draft, { setup, piece, name }) {
    draft.setups[setup].pieces[piece].name = name;
  },
};

const setPiece: Rule<SetPiece> = {
  refuse(plan, { setup, piece: id, set }) {
    const found = findPiece(plan, setup, id);
    if (found.refusal) return found.refusal;
    const { piece } = found;
    const asked = Object.entries(set).filter(([, value]) => value !== undefined);
    if (asked.length === 0) return NOTHING_ASKED;
    if (piece.kind === 'rack' && asked.some(([key]) => !RACK_FIELDS.includes(key)))
      return { code: 'not_an_item', piece: piece.name };
    if (piece.kind !== 'item' || !set.mount) return null;
    const [lost] = socketSwap(plan, found.setup, piece, set.mount).lost;
    if (lost === undefined) return null;
    const arm = set.mount.arm ?? '';
    return {
      code: 'socket_lost',
      piece: found.setup.pieces[lost].name,
      of: piece.name,
      arm: gearOf(plan.gear, arm)?.name ?? arm,
    };
  },
  apply(draft, { setup, piece: id, set }, plan) {
    const { pieces } = draft.setups[setup];
    const piece = pieces[id];
    const now = plan.setups[setup].pieces[id];
    if (now.kind === 'item' && set.mount)
      for (const move of socketSwap(plan, plan.setups[setup], now, set.mount).moves) {
        const hung = pieces[move.piece] as Draft<Item>;
        const carrier = move.tie < 0 ? hung.mount?.carrier : hung.ties?.[move.tie]?.carrier;
        if (carrier?.on === 'socket') carrier.socket = move.socket;
      }
    if (piece.kind === 'rack') {
      writeFields(piece, set, RACK_FIELDS, RACK_FIELDS);
      return;
    }
    writeFields(piece, set, ITEM_FIELDS, ITEM_OPTIONAL);
    // A piece that let go of its arm lets go of what sat in that arm's sockets.
    if (set.mount !== undefined) freeSockets(draft, setup);
  },
};

/** True when two lists name the same things, each once. */
export function sameNames(a: readonly string[], b: readonly string[]): boolean {
  const names = new Set(a);
  return a.length === b.length && names.size === a.length && b.every((id) => names.has(id));
}

const orderPieces: Rule<OrderPieces> = {
  refuse: (plan, { setup, order }) =>
    refuseSetup(plan, setup) ??
    (sameNames(order, plan.setups[setup].order) ? null : { code: 'order_differs', what: 'piece' }),
  apply(draft, { setup, order }) {
    draft.setups[setup].order = [...order];
  },
};

export const pieceRules = {
  placePieces,
  addPiece,
  removePieces,
  renamePiece,
  setPiece,
  orderPieces,
} satisfies RulesOf<PieceCommand>;
