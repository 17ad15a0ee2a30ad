/** What differs between two setups as lines under headings, in columns that run over pages. */
import type { Differences, PieceDifference } from '../checks/differences.ts';
import { TEXT_MM } from '../drawing/displayList.ts';
import type { Plan } from '../plan/schema.ts';
import { kitMoveWords, partDifferenceWords, pieceWords, playingWords } from '../words/differenceWords.ts';
import { pieceName } from '../words/names.ts';
import { type Block, type BlockGroup, beside } from './blocks.ts';
import { LEADING, type Page } from './page.ts';

const SMALL = TEXT_MM.small;
const LINE_MM = SMALL * LEADING;
const INDENT_MM = 2.5;

/** Whether a piece itself stands otherwise, not only what holds it. */
const stands = (piece: PieceDifference): boolean =>
  piece.what !== 'changed' ||
  piece.movedMm !== 0 ||
  piece.turnedDeg !== 0 ||
  piece.raisedMm !== 0 ||
  piece.tiltedDeg !== 0 ||
  piece.gear !== null ||
  piece.secondMoved ||
  piece.legsTurned ||
  piece.also.length > 0 ||
  piece.bars.length > 0 ||
  piece.legs.length > 0;

/** Equal lines once, with their number. */
function counted(lines: readonly string[]): string[] {
  const counts = new Map<string, number>();
  for (const line of lines) counts.set(line, (counts.get(line) ?? 0) + 1);
  return [...counts].map(([line, count]) => (count > 1 ? `${line} (${count} times)` : line));
}

/** A piece's name in one setup, or in another if it is only there. */
export const nameIn = (plan: Plan, id: string, setup: string, other: string): string =>
  pieceName(plan, Object.hasOwn(plan.setups[setup].pieces, id) ? setup : other, id);

/** A line within a width. */
function words(measurer: Page, text: string, widthMm: number, indentMm = 0): Block {
  const wide = widthMm - indentMm;
  return {
    heightMm: measurer.paragraphHeight(text, wide, SMALL) + 0.5,
    draw: (page, x, topMm) => {
      page.paragraph(text, x + indentMm, topMm - SMALL, wide);
    },
  };
}

const heading = (text: string, widthMm: number): Block => ({
  heightMm: LINE_MM + 1.2,
  draw: (page, x, topMm) => page.fitted(text, x, topMm - SMALL, widthMm, { bold: true }),
});

/** The differences of one setup from the first, as groups of lines; `number` is the setup's own on the sheet. */
export function differenceGroups(
  plan: Plan,
  one: Differences,
  number: number,
  measurer: Page,
  widthMm: number,
): BlockGroup[] {
  const group = (title: string, lines: readonly string[], wide = widthMm): BlockGroup => ({
    head: heading(`${title}${lines.length === 0 && title !== '' ? ': none' : ''}`, wide),
    continued: heading(title === '' ? '' : `${title}, continued`, wide),
    rows: counted(lines).map((line) => words(measurer, line, wide, INDENT_MM)),
  });
  const half = widthMm / 2;
  /** Two lists beside one another. */
  const pair = (titles: readonly [string, string], lists: readonly [readonly string[], readonly string[]]) =>
    beside(group(titles[0], lists[0], half - 2), group(titles[1], lists[1], half - 2), half);
  const title = `From 1  ${plan.setups[one.from].name} to ${number}  ${plan.setups[one.to].name}`;
  const moved = one.pieces.filter(stands);
  const held = one.pieces.filter((piece) => !stands(piece)).map((piece) => pieceWords(piece, plan));
  const middle = Math.ceil(held.length / 2);
  const names = one.playing.map((id) => nameIn(plan, id, one.to, one.from));
  const playing = playingWords(one.samePlayingLayout, names);
  return [
    {
      head: heading(title, widthMm),
      rows: [...(one.kit ? [kitMoveWords(one.kit, plan)] : []), playing].map((line) => words(measurer, line, widthMm)),
    },
    group(
      'Moved, changed, added or removed',
      moved.map((piece) => pieceWords(piece, plan)),
    ),
    pair(['Held otherwise, at the same place', ''], [held.slice(0, middle), held.slice(middle)]),
    pair(
      ['Parts removed', 'Parts added'],
      [
        one.partsRemoved.map((part) => partDifferenceWords(part, plan)),
        one.partsAdded.map((part) => partDifferenceWords(part, plan)),
      ],
    ),
  ];
}
