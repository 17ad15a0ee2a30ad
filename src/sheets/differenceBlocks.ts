/** What differs between two setups as lines under headings, in columns that run over pages. */
import type { Differences, PieceDifference } from '../checks/differences.ts';
import { TEXT_MM } from '../drawing/displayList.ts';
import type { Plan } from '../plan/schema.ts';
import { partDifferenceWords, pieceWords } from '../words/differenceWords.ts';
import { pieceName } from '../words/names.ts';
import { LEADING, type Page } from './page.ts';
import type { Block, BlockGroup } from './table.ts';

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

/**
 * The differences of one setup from the first, as groups of lines; `number` is the setup's own on the sheet.
 * `x`: where the column that is being drawn begins, asked for at every line, as a list goes on in other columns.
 */
export function differenceGroups(
  plan: Plan,
  one: Differences,
  number: number,
  measurer: Page,
  x: () => number,
  widthMm: number,
): BlockGroup[] {
  const words = (text: string, bold = false, indentMm = 0, wide = widthMm - indentMm): Block => ({
    heightMm: bold ? LINE_MM + 1.2 : measurer.paragraphHeight(text, wide, SMALL) + 0.5,
    draw: (page, topMm) => {
      const [left, base] = [x() + indentMm, topMm - SMALL];
      if (bold) page.fitted(text, left, base, wide, { bold });
      else page.paragraph(text, left, base, wide);
    },
  });
  const group = (title: string, lines: readonly string[]): BlockGroup => ({
    head: words(`${title}${lines.length === 0 ? ': none' : ''}`, true),
    continued: words(`${title}, continued`, true),
    rows: counted(lines).map((line) => words(line, false, INDENT_MM)),
  });
  /** Two lists beside one another. */
  const half = widthMm / 2;
  const pair = (left: Block, right: Block): Block => ({
    heightMm: Math.max(left.heightMm, right.heightMm),
    draw: (page, topMm) => {
      left.draw(page, topMm);
      right.draw(page, topMm);
    },
  });
  const beside = (
    titles: readonly [string, string],
    lists: readonly [readonly string[], readonly string[]],
  ): BlockGroup => {
    const [left, right] = lists.map(counted);
    const heads = titles.map((one, n) => `${one}${lists[n].length === 0 && one !== '' ? ': none' : ''}`);
    const on = titles.map((one) => (one === '' ? '' : `${one}, continued`));
    const line = (list: readonly string[], n: number, from: number) =>
      words(list[n] ?? '', false, INDENT_MM + from, half - INDENT_MM - 2);
    return {
      head: pair(words(heads[0], true, 0, half - 2), words(heads[1], true, half, half - 2)),
      continued: pair(words(on[0], true, 0, half - 2), words(on[1], true, half, half - 2)),
      rows: Array.from({ length: Math.max(left.length, right.length) }, (_, n) =>
        pair(line(left, n, 0), line(right, n, half)),
      ),
    };
  };
  const title = `From 1  ${plan.setups[one.from].name} to ${number}  ${plan.setups[one.to].name}`;
  const moved = one.pieces.filter(stands);
  const held = one.pieces.filter((piece) => !stands(piece)).map((piece) => pieceWords(piece, plan));
  const middle = Math.ceil(held.length / 2);
  const names = one.playing.map((id) => nameIn(plan, id, one.to, one.from));
  const playing = one.samePlayingLayout
    ? 'The same playing layout.'
    : `Not the same playing layout: ${names.join(', ')}.`;
  return [
    { head: words(title, true), rows: [words(playing)] },
    group(
      'Moved, changed, added or removed',
      moved.map((piece) => pieceWords(piece, plan)),
    ),
    beside(['Held otherwise, at the same place', ''], [held.slice(0, middle), held.slice(middle)]),
    beside(
      ['Parts removed', 'Parts added'],
      [
        one.partsRemoved.map((part) => partDifferenceWords(part, plan)),
        one.partsAdded.map((part) => partDifferenceWords(part, plan)),
      ],
    ),
  ];
}
