/**
 * The input list as it is shown: a setup's own list as it was written, or the one proposed from what stands there; and what
 * an own list leaves out.
 */

import { gearOf } from '../gear/catalogue.ts';
import { sourceOf } from '../gear/kinds.ts';
import { STAGE_USES } from '../gear/uses.ts';
import { gearOfPiece, itemsOfKind } from '../plan/items.ts';
import { own } from '../plan/places.ts';
import type { Input, Plan, Setup } from '../plan/schema.ts';
import { type ProposedLine, proposedLines } from './proposedInputs.ts';

export const INPUT_HEADING = 'Input list, proposed';

/** One line of the list: every field there, whoever wrote it. */
export interface Channel {
  /** From 1 on. */
  readonly number: number;
  readonly id: string;
  readonly source: string;
  /** The piece that it takes. */
  readonly piece?: string;
  readonly by: Input['by'];
  /** Microphone or DI, in words; '' when nothing is said. */
  readonly device: string;
  readonly stand: string;
  readonly phantom: boolean;
  readonly note: string;
}

/** Gives lines the ids `in-1`, `in-2` and so on, past those that are taken. */
function withIds(lines: readonly ProposedLine[], taken: readonly Input[]): Input[] {
  const ids = new Set(taken.map(({ id }) => id));
  let next = 0;
  return lines.map((line) => {
    do next++;
    while (ids.has(`in-${next}`));
    return { id: `in-${next}`, ...line };
  });
}

/** The list that the kit and the stage ask for, whatever list the setup has. */
export const proposedInputs = (plan: Plan, setup: Setup): Input[] => withIds(proposedLines(plan, setup), []);

/** The setup's channels: its own list, or the proposed one where it has none. */
export function inputList(plan: Plan, setup: Setup): Channel[] {
  return (setup.inputs ?? proposedInputs(plan, setup)).map((input, k) => ({
    number: k + 1,
    id: input.id,
    source: input.source,
    ...(input.piece === undefined ? {} : { piece: input.piece }),
    by: input.by,
    device: input.device ?? '',
    stand: input.stand ?? '',
    phantom: input.phantom ?? false,
    note: input.note ?? '',
  }));
}

/** Channel numbers by what takes them: a microphone or a DI that the list names, and those placed on a piece, in turn. */
export function channelsOf(plan: Plan, setup: Setup): Map<string, string> {
  const numbers = new Map<string, string[]>();
  for (const { number, piece } of inputList(plan, setup)) {
    if (piece === undefined) continue;
    numbers.set(piece, [...(numbers.get(piece) ?? []), String(number)]);
  }
  const channels = new Map<string, string>();
  const turn = new Map<string, number>();
  for (const { item, gear } of itemsOfKind(plan, setup, 'stageItem')) {
    if (STAGE_USES[gear.use].asks !== 'source') continue;
    const direct = numbers.get(item.id);
    if (direct) {
      channels.set(item.id, direct.join(', '));
      continue;
    }
    if (item.takes === undefined) continue;
    const k = turn.get(item.takes) ?? 0;
    turn.set(item.takes, k + 1);
    const number = numbers.get(item.takes)?.[k];
    if (number !== undefined) channels.set(item.id, number);
  }
  return channels;
}

function nameIn(plan: Plan, setup: Setup, id: string): string {
  const piece = own(setup.pieces, id);
  if (piece === undefined) return id;
  return piece.name || (piece.kind === 'item' ? (gearOf(plan.gear, piece.gear)?.name ?? piece.gear) : id);
}

const OVERHEAD = /overhead/i;

/** A cymbal that overheads are for: any but hi-hats. */
function ringsAbove(plan: Plan, setup: Setup, id: string | undefined): boolean {
  const gear = id === undefined ? undefined : gearOfPiece(plan, setup, id);
  return gear !== undefined && sourceOf(gear) === 'overhead';
}

/**
 * Lines proposed for what the setup's own list leaves out, with ids that are free in it; none for a setup without a list of
 * its own. A piece is on the list where a line takes it, or where a line that takes no piece begins with its name.
 */
export function missingInputs(plan: Plan, setup: Setup): Input[] {
  const { inputs } = setup;
  if (inputs === undefined) return [];
  const taken = new Set(inputs.map(({ piece }) => piece));
  const said = inputs.filter(({ piece }) => piece === undefined).map(({ source }) => source.toLowerCase());
  const hasCymbals = inputs.some(({ source, piece }) => OVERHEAD.test(source) || ringsAbove(plan, setup, piece));
  const left = proposedLines(plan, setup).filter(({ piece }) => {
    // Only overheads take no one piece.
    if (piece === undefined) return !hasCymbals;
    const name = nameIn(plan, setup, piece).toLowerCase();
    return !taken.has(piece) && !said.some((source) => source.startsWith(name));
  });
  return withIds(left, inputs);
}

/** Names of what the setup's own list leaves out: "Floor tom 2"; "Cymbals" for a kit without overheads. */
export function withoutChannel(plan: Plan, setup: Setup): string[] {
  const names = missingInputs(plan, setup).map(({ piece }) =>
    piece === undefined ? 'Cymbals' : nameIn(plan, setup, piece),
  );
  return [...new Set(names)];
}
