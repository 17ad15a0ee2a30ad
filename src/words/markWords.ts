/** Marks on the floor in words and numbers: for the mark sheet and the template, which must name them alike. */
import type { FloorMark, MarkPart, StageWay } from '../checks/marks/floorMarks.ts';
import { type DisplayUnit, formatLength, formatNumber, formatTape, MM_PER_IN } from '../units.ts';

export const WAY_WORDS: Readonly<Record<StageWay, string>> = {
  down: 'downstage',
  downLeft: 'downstage left',
  left: 'stage left',
  upLeft: 'upstage left',
  up: 'upstage',
  upRight: 'upstage right',
  right: 'stage right',
  downRight: 'downstage right',
};

/** What a mark is of, and what its end, tip or corner is called. */
const PART_WORDS: Readonly<Record<MarkPart, readonly [thing: string, end: string]>> = {
  footEnd: ['foot', 'end'],
  footMiddle: ['foot', ''],
  upright: ['upright', ''],
  spurTip: ['spur', ''],
  hoop: ['batter hoop, where it rests', ''],
  legTip: ['leg', ''],
  underTube: ['under the tube', ''],
  base: ['base, middle', ''],
  toeCorner: ['toe', 'corner'],
  heelCorner: ['heel', 'corner'],
  middle: ['middle', ''],
  frontCorner: ['front', 'corner'],
  contact: ['contact', ''],
};

/** A place among others of its kind. */
export const placeWord = (place: StageWay | number): string =>
  typeof place === 'number' ? `no. ${place}` : WAY_WORDS[place];

/** "Side rack: upstage foot, stage left end"; "Snare stand: leg, downstage". */
export function markName({ label, part, which, end }: FloorMark): string {
  const [thing, endWord] = PART_WORDS[part];
  const board = part === 'toeCorner' || part === 'heelCorner';
  // Of two boards the word for the board comes before its toe or heel: "stage left board, toe".
  const first = which === null ? thing : board ? `${placeWord(which)} board, ${thing}` : `${placeWord(which)} ${thing}`;
  const last = end === null ? '' : `, ${placeWord(end)}${endWord === '' ? '' : ` ${endWord}`}`;
  return `${label}: ${first}${last}`;
}

/** A length as a tape is read: whole mm (the sheet says so once), or feet and inches to 1/16. */
export function tapeLength(mm: number, units: DisplayUnit): string {
  return units === 'mm' ? formatNumber(mm, 0) : formatTape(mm);
}

/** The same with its unit: no more digits than anybody can lay out. */
export const wholeLength = (mm: number, units: DisplayUnit): string =>
  `${tapeLength(mm, units)}${units === 'mm' ? ' mm' : ''}`;

/** "516 stage right"; on the line itself "0". */
export function fromCentre(mm: number, units: DisplayUnit): string {
  const text = tapeLength(Math.abs(mm), units);
  if (text === tapeLength(0, units)) return 'on it';
  return `${text} ${mm > 0 ? 'stage left' : 'stage right'}`;
}

/** "1412"; downstage of the edge in words. */
export function fromFront(mm: number, units: DisplayUnit): string {
  const text = tapeLength(Math.abs(mm), units);
  return mm < 0 && text !== tapeLength(0, units) ? `${text} downstage` : text;
}

/** An error, never shown smaller than it is: to the next tenth of a mm, or the next 1/16 in. */
export function errorLength(mm: number, units: DisplayUnit): string {
  if (units === 'mm') return formatNumber(Math.ceil(mm * 10 - 1e-6) / 10, 1);
  const step = MM_PER_IN / 16;
  return formatLength(Math.ceil(mm / step - 1e-6) * step, units);
}
