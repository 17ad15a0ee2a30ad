/**
 * Everything on the drawing as a list: the accessible twin of the canvas. One tab stop; arrow keys walk, Space picks,
 * Shift or Ctrl picks several.
 */
import { Lock } from 'lucide-react';
import { type KeyboardEvent, type MouseEvent, memo, useRef, useState } from 'react';
import type { Piece } from '../../../plan/schema.ts';
import type { DisplayUnit } from '../../../units.ts';
import { placeText } from './pieceRows.ts';

export interface PiecesListProps {
  readonly pieces: readonly Piece[];
  readonly units: DisplayUnit;
  readonly selection: readonly string[];
  readonly onSelect: (pieces: readonly string[]) => void;
  readonly gearName: (piece: Piece) => string;
  /** What holds it, in words; empty for what stands by itself. */
  readonly heldText: (piece: Piece) => string;
}

/** Where a walking key leads, or null for other keys. */
export function walk(key: string, from: number, count: number): number | null {
  switch (key) {
    case 'ArrowDown':
      return Math.min(count - 1, from + 1);
    case 'ArrowUp':
      return Math.max(0, from - 1);
    case 'Home':
      return 0;
    case 'End':
      return count - 1;
    case 'PageDown':
      return Math.min(count - 1, from + 10);
    case 'PageUp':
      return Math.max(0, from - 10);
    default:
      return null;
  }
}

/** The selection after a row was picked: alone, one more or less, or everything from the anchor to it. */
export function pick(
  ids: readonly string[],
  selection: readonly string[],
  at: number,
  how: 'alone' | 'toggle' | 'range',
  anchor: number,
): string[] {
  const id = ids[at];
  if (how === 'alone') return [id];
  if (how === 'toggle') return selection.includes(id) ? selection.filter((one) => one !== id) : [...selection, id];
  return ids.slice(Math.min(anchor, at), Math.max(anchor, at) + 1);
}

export function PiecesList({ pieces, units, selection, onSelect, gearName, heldText }: PiecesListProps) {
  const list = useRef<HTMLDivElement>(null);
  const anchor = useRef(0);
  const [current, setCurrent] = useState<string | null>(null);
  const ids = pieces.map(({ id }) => id);
  const selected = new Set(selection);
  // The tab stop: the row last walked to, else the first selected, else the first.
  const stop = Math.max(0, ids.indexOf(current !== null && ids.includes(current) ? current : (selection[0] ?? '')));

  const choose = (at: number, event: { shiftKey: boolean; ctrlKey: boolean; metaKey: boolean }) => {
    const how = event.shiftKey ? 'range' : event.ctrlKey || event.metaKey ? 'toggle' : 'alone';
    if (how !== 'range') anchor.current = at;
    setCurrent(ids[at]);
    onSelect(pick(ids, selection, at, how, anchor.current));
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key === ' ' || event.key === 'Enter') {
      event.preventDefault();
      return choose(stop, event);
    }
    if ((event.ctrlKey || event.metaKey) && event.key.toLowerCase() === 'a') {
      event.preventDefault();
      return onSelect(ids);
    }
    const to = walk(event.key, stop, ids.length);
    if (to === null) return;
    event.preventDefault();
    setCurrent(ids[to]);
    (list.current?.children[to] as HTMLElement | undefined)?.focus();
    if (event.shiftKey) onSelect(pick(ids, selection, to, 'range', anchor.current));
  };
  const onClick = (event: MouseEvent) => {
    const row = (event.target as Element).closest('[role=option]');
    const at = row === null ? -1 : [...list.current!.children].indexOf(row);
    if (at >= 0) choose(at, event);
  };
  if (pieces.length === 0)
    return (
      <div className="panel-empty">
        <p>There is nothing on the drawing yet.</p>
        <p>Take something from the gear drawer.</p>
      </div>
    );
  return (
    <div
      ref={list}
      className="pieces"
      role="listbox"
      aria-label="Pieces on the drawing"
      aria-multiselectable="true"
      tabIndex={-1}
      onKeyDown={onKeyDown}
      onClick={onClick}
    >
      {pieces.map((piece, i) => (
        <PieceRow
          key={piece.id}
          piece={piece}
          units={units}
          isSelected={selected.has(piece.id)}
          isStop={i === stop}
          gear={gearName(piece)}
          held={heldText(piece)}
        />
      ))}
    </div>
  );
}

interface PieceRowProps {
  readonly piece: Piece;
  readonly units: DisplayUnit;
  readonly isSelected: boolean;
  readonly isStop: boolean;
  readonly gear: string;
  readonly held: string;
}

const PieceRow = memo(function PieceRow({ piece, units, isSelected, isStop, gear, held }: PieceRowProps) {
  return (
    <div role="option" className="piece-row" aria-selected={isSelected} tabIndex={isStop ? 0 : -1}>
      <span className="piece-name">
        {piece.name || 'Unnamed'}
        {piece.locked === true && <Lock role="img" aria-hidden={false} aria-label="locked" />}
      </span>
      {gear !== piece.name && <span className="piece-gear">{gear}</span>}
      <span className="piece-place">
        {placeText(piece, units)}
        {held !== '' && `; ${held}`}
      </span>
    </div>
  );
});
