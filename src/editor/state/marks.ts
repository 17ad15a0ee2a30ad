/**
 * The marks of a setup's pieces for the screen, kept by piece, and which pieces look different in another state of the plan.
 *
 * Both ask the same question: what is a piece's picture made from? The answer is a list of objects (madeOf), which immer and the
 * layout keep as they are while nothing that they say changes. The same objects give the same marks.
 */
import type { Mark } from '../../drawing/displayList.ts';
import { drawPiece } from '../../drawing/pieces.ts';
import { keeper, kept } from '../../keep.ts';
import { bodiesOf } from '../../layout/bodiesOf.ts';
import type { Body } from '../../layout/body.ts';
import { own } from '../../plan/places.ts';
import type { Live } from './live.ts';

type Made = readonly unknown[];

const madesOf = kept((_: Live) => new Map<string, Made>());

/**
 * Everything that a piece's marks are made from: the piece and its bodies; down to the rack, what its clamp sits on; what a
 * microphone takes, as it points at it; the mixes, as a wedge shows its mix's number.
 */
function madeOf(live: Live, id: string): Made {
  const all = madesOf(live);
  const before = all.get(id);
  if (before) return before;
  const { plan, setup, layout } = live;
  const piece = setup.pieces[id];
  const made: unknown[] = [plan.gear, piece];
  if (piece.kind === 'item') {
    made.push(...bodiesOf(layout.bodies, id));
    const seen = new Set<string>();
    for (let carrier = piece.mount?.carrier; carrier; ) {
      if (carrier.on === 'bar' || carrier.on === 'leg') {
        made.push(own(layout.racks, carrier.rack));
        break;
      }
      if (carrier.on === 'piece') break;
      const holder = own(setup.pieces, carrier.piece);
      made.push(holder);
      // A file may hold a ring of sockets.
      if (holder?.kind !== 'item' || seen.has(holder.id)) break;
      seen.add(holder.id);
      carrier = holder.mount?.carrier;
    }
    if (piece.takes !== undefined) made.push(own(setup.pieces, piece.takes), ...bodiesOf(layout.bodies, piece.takes));
    if (piece.mix !== undefined) made.push(setup.mixes);
  }
  all.set(id, made);
  return made;
}

const keepMarks = keeper<readonly Mark[]>();

export function pieceMarks(live: Live, id: string): readonly Mark[] {
  const { plan, setup, layout } = live;
  return keepMarks(setup.pieces[id], madeOf(live, id), () => drawPiece(plan, setup, id, layout));
}

const isBody = (one: unknown): one is Body => typeof one === 'object' && one !== null && 'shape' in one;

/** The same object, or a body that was laid out anew and came out as it was: arms keep their bodies for one state of the plan only. */
const alike = (a: unknown, b: unknown): boolean =>
  a === b ||
  (isBody(a) && isBody(b) && a.z0 === b.z0 && a.z1 === b.z1 && JSON.stringify(a.shape) === JSON.stringify(b.shape));

/** The pieces that are new, or that look different, in another state of the same setup: what moves, and all that hangs on it. */
export function changedLooks(before: Live, after: Live): string[] {
  return after.setup.order.filter((id) => {
    if (!Object.hasOwn(before.setup.pieces, id)) return true;
    const [was, now] = [madeOf(before, id), madeOf(after, id)];
    return was.length !== now.length || was.some((one, k) => !alike(one, now[k]));
  });
}

/** Marks of one piece that come one after the other where all are painted from low to high. */
export interface Run {
  /** The piece, and which of its runs from below. */
  readonly key: string;
  readonly piece: string;
  readonly marks: readonly Mark[];
}

/** All marks of the chosen pieces from low to high, as runs. */
export function runsOf(live: Live, ids: readonly string[] = live.setup.order): Run[] {
  const all = ids.flatMap((id) => pieceMarks(live, id).map((mark) => ({ id, mark })));
  all.sort((a, b) => a.mark.zMm - b.mark.zMm);
  const runs: { key: string; piece: string; marks: Mark[] }[] = [];
  const count = new Map<string, number>();
  for (const { id, mark } of all) {
    const last = runs.at(-1);
    if (last?.piece === id) {
      last.marks.push(mark);
      continue;
    }
    const k = count.get(id) ?? 0;
    count.set(id, k + 1);
    runs.push({ key: `${id}\n${k}`, piece: id, marks: [mark] });
  }
  return runs;
}
