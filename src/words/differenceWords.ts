/** What differs between two setups, in words: the playing layout first, then piece by piece, then parts. */
import type { Also, AlsoChange, Differences, PartDifference, PieceDifference } from '../checks/differences.ts';
import { type KitMove, SAME_MM } from '../checks/kitMove.ts';
import { gearOf } from '../gear/catalogue.ts';
import type { Plan } from '../plan/schema.ts';
import { formatAngle, formatLength } from '../units.ts';
import { listed } from './names.ts';
import { differenceOf, READING_ROWS, rowText, type SetupReadings } from './readingRows.ts';

/** `The whole kit moved 20" to stage left and 3" upstage, and turned 40° counter-clockwise; what follows is within the kit.` */
export function kitMoveWords({ move: [dx, dy], turnedDeg }: KitMove, plan: Plan): string {
  const way = (value: number, [more, less]: readonly [string, string]) =>
    Math.abs(value) < SAME_MM ? [] : [`${formatLength(Math.abs(value), plan.units)} ${value > 0 ? more : less}`];
  const shift = [...way(dx, ['to stage left', 'to stage right']), ...way(dy, ['upstage', 'downstage'])].join(' and ');
  const turn =
    turnedDeg === 0
      ? ''
      : `turned ${formatAngle(Math.abs(turnedDeg))} ${turnedDeg > 0 ? 'counter-clockwise' : 'clockwise'}`;
  const said = [...(shift === '' ? [] : [`moved ${shift}`]), ...(turn === '' ? [] : [turn])].join(', and ');
  return `The whole kit ${said}; what follows is within the kit.`;
}

/** What has no number, as it is after. */
const ALSO_WORDS: Readonly<Record<Also, (change: AlsoChange) => string>> = {
  name: ({ from }) => `called "${from}" before`,
  tip: ({ to }) =>
    to === undefined ? 'tip as its gear is made' : to === 'hangs' ? 'hangs on its brace' : 'rests its tip on the floor',
  load: ({ to }) => (to === undefined ? 'in no named load' : `travels in "${to}"`),
  takes: () => 'takes another piece',
  mix: () => 'another mix',
  power: () => 'other power',
  note: () => 'another note',
};

/** One piece: `"Crash 16" moved 2", up 1/2"; clamp slid 3"`. */
export function pieceWords(piece: PieceDifference, plan: Plan): string {
  const mm = (value: number) => formatLength(Math.abs(value), plan.units);
  if (piece.what === 'added' || piece.what === 'removed') return `${piece.name}: ${piece.what}`;
  const words: string[] = [];
  if (piece.movedMm !== 0) words.push(`moved ${mm(piece.movedMm)}`);
  if (piece.turnedDeg !== 0)
    words.push(
      `turned ${formatAngle(Math.abs(piece.turnedDeg))} ${piece.turnedDeg > 0 ? 'counter-clockwise' : 'clockwise'}`,
    );
  if (piece.raisedMm !== 0) words.push(`${mm(piece.raisedMm)} ${piece.raisedMm > 0 ? 'higher' : 'lower'}`);
  if (piece.tiltedDeg !== 0)
    words.push(`tilted ${formatAngle(Math.abs(piece.tiltedDeg))} ${piece.tiltedDeg > 0 ? 'more' : 'less'}`);
  if (piece.gear) words.push('other gear');
  if (piece.mount?.carrier) words.push('held elsewhere');
  else if (piece.mount?.slidMm) words.push(`clamp slid ${mm(piece.mount.slidMm)}`);
  if (piece.mount && !piece.mount.carrier && piece.mount.arm) words.push('other arm');
  if (piece.mount && !piece.mount.carrier && piece.mount.clamp) words.push('other clamp');
  if (piece.mount && !piece.mount.carrier && piece.mount.side) {
    const side = piece.mount.to?.side;
    words.push(side === undefined ? 'arm on the side with most room' : `arm on the ${side} of its tube`);
  }
  if (piece.ties) words.push('tied differently');
  if (piece.secondMoved) words.push('second pedal moved');
  if (piece.legsTurned) words.push('legs turned');
  for (const bar of piece.bars) {
    if (bar.what !== 'changed') words.push(`a bar ${bar.what}`);
    else if (bar.bend)
      words.push(bar.bend.from === null ? 'bent' : bar.bend.to === null ? 'straightened' : 'bent otherwise');
    if (bar.cutLengthMm) words.push(`a bar of ${mm(bar.cutLengthMm.to)} in place of ${mm(bar.cutLengthMm.from)}`);
    if (bar.heightMm) words.push(`a bar ${bar.heightMm.to > bar.heightMm.from ? 'higher' : 'lower'}`);
    if (bar.tube && !bar.bend && !bar.cutLengthMm) words.push('a bar of another tube');
    // Where the legs stand otherwise, that says it.
    if (bar.overhangMm && piece.legs.length === 0)
      words.push(`a bar slid ${mm(bar.overhangMm.to - bar.overhangMm.from)}`);
  }
  for (const leg of piece.legs) {
    if (leg.what !== 'changed') words.push(`a leg ${leg.what}`);
    else {
      if (leg.movedMm !== 0) words.push(`a leg stands ${mm(leg.movedMm)} over`);
      if (leg.footTurnedDeg !== 0 && piece.turnedDeg === 0)
        words.push(`a foot turned ${formatAngle(Math.abs(leg.footTurnedDeg))}`);
      if (leg.lengthMm) words.push(`a leg of ${mm(leg.lengthMm.to)} in place of ${mm(leg.lengthMm.from)}`);
      else if (leg.tube) words.push('a leg of another tube');
      if (leg.foot)
        words.push(leg.foot.to === null ? 'a foot less' : leg.foot.from === null ? 'a foot more' : 'another foot');
    }
  }
  for (const change of piece.also) words.push(ALSO_WORDS[change.field](change));
  return `${piece.name}: ${words.length === 0 ? 'changed' : words.join(', ')}`;
}

/** One part: how many more or fewer, and what. */
export const partDifferenceWords = ({ part, before, after }: PartDifference, plan: Plan): string => {
  // A name that says its length needs no other.
  const named = gearOf(plan.gear, part.gear)?.name === part.label;
  const length = part.cutLength === null || named ? '' : `, ${formatLength(part.cutLength, plan.units)}`;
  return `${after - before > 0 ? '+' : '−'}${Math.abs(after - before)} ${part.label}${length}`;
};

/** Whether two setups play the same, and what plays otherwise, by name. */
export const playingWords = (isSame: boolean, names: readonly string[]): string =>
  isSame ? 'The same playing layout.' : `Not the same playing layout: ${listed(names)}.`;

/** One line each. */
export function differenceLines(found: Differences, plan: Plan): string[] {
  const names = found.pieces.filter(({ id }) => found.playing.includes(id)).map(({ name }) => name);
  return [
    ...(found.kit ? [kitMoveWords(found.kit, plan)] : []),
    playingWords(found.samePlayingLayout, names),
    ...found.pieces.map((piece) => pieceWords(piece, plan)),
    ...found.partsRemoved.map((part) => partDifferenceWords(part, plan)),
    ...found.partsAdded.map((part) => partDifferenceWords(part, plan)),
  ];
}

/** `Feet on the deck: 11, was 9 (+2)`; one line for each reading that differs to whoever reads it. */
export function readingLines(before: SetupReadings, after: SetupReadings, plan: Plan): string[] {
  return READING_ROWS.flatMap((row) => {
    const [was, is] = [before, after].map((readings) => rowText(row, readings, plan.units));
    if (was === is) return [];
    const difference = differenceOf(row, after, before, plan.units);
    const by = difference && difference.text !== 'same' ? ` (${difference.text})` : '';
    return [`${row.label}: ${is}, was ${was}${by}`];
  });
}
