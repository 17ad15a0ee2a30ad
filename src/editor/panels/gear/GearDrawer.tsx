/**
 * The gear drawer: everything that can be put on the drawing, found by a few letters. Enter or a tap puts a piece at a
 * free place in sight; a press that moves drags it onto the drawing.
 */
import { Plus, Ruler } from 'lucide-react';
import { type KeyboardEvent, type PointerEvent, useDeferredValue, useId, useMemo, useRef, useState } from 'react';
import { massKgOf } from '../../../gear/catalogue.ts';
import { type Placeable, placedKind } from '../../../gear/kinds.ts';
import { bowAway } from '../../../plan/bow.ts';
import type { Piece } from '../../../plan/schema.ts';
import { type DisplayUnit, formatMass } from '../../../units.ts';
import { usePanel } from '../../state/panelContext.ts';
import { SearchBox } from '../shared/SearchBox.tsx';
import { freePlace } from './freePlace.ts';
import { dragGear } from './gearDrag.ts';
import { bowedTo, newRack, placedItem, RACK_FORMS } from './newPiece.ts';
import { gearOfPlan, measuredMark, shelves, sizeText } from './shelf.ts';
import './gear.css';

/** What stands on a shelf: a form of rack, or a piece of gear, which can be dragged as well. */
type Offer = (typeof RACK_FORMS)[number] | Placeable;
const isGear = (offer: Offer): offer is Placeable => 'kind' in offer;
const keyOf = (offer: Offer): string => (isGear(offer) ? offer.id : `rack ${offer.id}`);

/** Where the arrow keys go from row `at` of `count`; null for keys that are not theirs. */
function nextRow(key: string, at: number, count: number): number | null {
  if (count === 0) return null;
  if (key === 'ArrowDown') return Math.min(count - 1, at + 1);
  if (key === 'ArrowUp') return Math.max(0, at - 1);
  if (key === 'Home') return 0;
  if (key === 'End') return count - 1;
  return null;
}

/** A press that moved this far is a drag, not a tap. CSS px. */
const DRAG_PX = 6;

/** `onAdded`: a piece was added; a small screen closes the drawer then. */
export function GearDrawer({ onAdded }: { readonly onAdded: () => void }) {
  const { editor, plan } = usePanel();
  const [query, setQuery] = useState('');
  const asked = useDeferredValue(query);
  const gear = useMemo(() => gearOfPlan(plan), [plan]);
  const found = useMemo(() => shelves(gear, asked), [gear, asked]);
  const racks = RACK_FORMS.filter(({ name, tells }) =>
    asked
      .toLowerCase()
      .split(/\s+/)
      .every((word) => `${name} ${tells}`.toLowerCase().includes(word)),
  );
  const groups: readonly { readonly name: string; readonly gear: readonly Offer[] }[] = [
    ...(racks.length > 0 ? [{ name: 'New rack', gear: racks }] : []),
    ...found,
  ];
  // One stop for Tab, arrows inside: a hundred rows must not stand between the keyboard and the drawing.
  const [focused, setFocused] = useState('');
  const rows = groups.flatMap((shelf) => shelf.gear.map(keyOf));
  const stop = rows.includes(focused) ? focused : rows[0];
  const list = useRef<HTMLDivElement>(null);
  const onKeyDown = (event: KeyboardEvent) => {
    const buttons = [...(list.current?.querySelectorAll<HTMLElement>('.gear-row') ?? [])];
    const next = nextRow(event.key, buttons.indexOf(event.target as HTMLElement), buttons.length);
    if (next === null) return;
    event.preventDefault();
    buttons[next].focus();
  };
  const made = (offer: Offer): Piece | null => {
    const { layout, setup } = editor.committed();
    const { xMm, yMm } = editor.store.getState().view;
    if (!isGear(offer)) {
      const plan = editor.plan();
      const rack = newRack(offer.id, gearOfPlan(plan), Math.round(xMm), Math.round(yMm), setup.pieces);
      return rack && bowedTo(rack, bowAway(plan, setup, rack).side);
    }
    const [x, y] = freePlace(layout.bodies, xMm, yMm, placedKind(offer).reachMm(offer));
    return placedItem(editor.plan(), setup, offer, x, y);
  };
  const add = (offer: Offer) => {
    const piece = made(offer);
    if (piece === null) return editor.set({ message: 'Neither the catalogue nor this plan has tubes for that rack.' });
    if (editor.run({ type: 'addPiece', setup: editor.committed().setupId, piece }) !== null) return;
    editor.select([piece.id]);
    onAdded();
  };
  return (
    <div className="gear-drawer">
      <SearchBox label="Find gear" placeholder="Find gear: 14 snare" value={query} onChange={setQuery} />
      <p role="status" className="unseen">
        {rows.length === 0 ? 'No gear found' : `${rows.length} found`}
      </p>
      {/* biome-ignore lint/a11y/noStaticElementInteractions: the keys belong to the buttons inside */}
      <div className="gear-shelves" ref={list} onKeyDown={onKeyDown}>
        {groups.map((shelf) => (
          <ShelfList key={shelf.name} name={shelf.name}>
            {shelf.gear.map((offer) => (
              <li key={keyOf(offer)}>
                <Row offer={offer} isStop={stop === keyOf(offer)} onFocus={setFocused} onAdd={add} />
              </li>
            ))}
          </ShelfList>
        ))}
        {rows.length === 0 && (
          <div className="panel-empty">
            <p>Nothing in the catalogue has “{asked.trim()}” in its name.</p>
            <p>Take the nearest size, put it on the drawing, and enter what your tape says.</p>
          </div>
        )}
      </div>
    </div>
  );
}

function ShelfList({ name, children }: { readonly name: string; readonly children: React.ReactNode }) {
  const id = useId();
  return (
    <section aria-labelledby={id}>
      <h3 id={id}>{name}</h3>
      <ul>{children}</ul>
    </section>
  );
}

interface RowProps {
  readonly offer: Offer;
  /** Whether Tab stops here. */
  readonly isStop: boolean;
  readonly onFocus: (key: string) => void;
  readonly onAdd: (offer: Offer) => void;
}

function Row({ offer, isStop, onFocus, onAdd }: RowProps) {
  const { editor, units, isReadOnly } = usePanel();
  const press = useRef<{ x: number; y: number; id: number } | null>(null);
  const dragged = useRef(false);
  const onPointerDown = (event: PointerEvent) => {
    dragged.current = false;
    // A finger scrolls the list: dragging out of it is for mouse and pen.
    if (!isGear(offer) || event.button !== 0 || event.pointerType === 'touch') return;
    press.current = { x: event.clientX, y: event.clientY, id: event.pointerId };
  };
  const onPointerMove = (event: PointerEvent) => {
    const from = press.current;
    if (!isGear(offer) || from === null || from.id !== event.pointerId) return;
    if (Math.hypot(event.clientX - from.x, event.clientY - from.y) < DRAG_PX) return;
    press.current = null;
    dragged.current = true;
    dragGear(editor, offer, event.nativeEvent);
  };
  const over = () => {
    press.current = null;
  };
  return (
    <button
      type="button"
      className="gear-row"
      disabled={isReadOnly}
      tabIndex={isStop ? 0 : -1}
      onFocus={() => onFocus(keyOf(offer))}
      onPointerDown={onPointerDown}
      onPointerMove={onPointerMove}
      onPointerUp={over}
      onPointerCancel={over}
      onPointerLeave={onPointerMove}
      onClick={() => {
        if (!dragged.current) onAdd(offer);
        dragged.current = false;
      }}
    >
      {!isGear(offer) && <Plus aria-hidden="true" />}
      <span className="gear-name">{offer.name}</span>
      <span className="gear-size">{isGear(offer) ? <Sizes gear={offer} units={units} /> : offer.tells}</span>
    </button>
  );
}

function Sizes({ gear, units }: { readonly gear: Placeable; readonly units: DisplayUnit }) {
  const { mark, text } = measuredMark(gear);
  const mass = massKgOf(gear);
  return (
    <>
      {sizeText(gear, units)} · {mass === null ? 'mass not known' : formatMass(mass, units)}
      {mark === 'measured' && (
        <span className="gear-measured" title={text}>
          <Ruler aria-hidden="true" /> <span>measured</span>
        </span>
      )}
    </>
  );
}
