/**
 * The gear drawer: everything that can be put on the drawing, found by a few letters. Enter or a tap puts a piece at a
 * free place in sight; a press that moves drags it onto the drawing.
 */
import { Plus, Ruler, Search, X } from 'lucide-react';
import { type KeyboardEvent, type PointerEvent, useDeferredValue, useId, useMemo, useRef, useState } from 'react';
import { Button, Input, Label, SearchField } from 'react-aria-components';
import { massKgOf } from '../../../gear/catalogue.ts';
import type { Placeable } from '../../../gear/kinds.ts';
import type { Gear } from '../../../gear/schema.ts';
import { type DisplayUnit, formatMass } from '../../../units.ts';
import { usePanel } from '../../state/panelContext.ts';
import { RACK_FORMS, type RackForm } from './newPiece.ts';
import { gearOfPlan, measuredMark, shelves, sizeText } from './shelf.ts';
import './gear.css';

export interface GearDrawerProps {
  /** Put a piece at a free place in sight. */
  readonly onAdd: (gear: Placeable) => void;
  readonly onAddRack: (form: RackForm) => void;
  /** A drag began: the drawing takes the pointer from here. */
  readonly onDrag?: (gear: Placeable, event: globalThis.PointerEvent) => void;
}

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

export function GearDrawer({ onAdd, onAddRack, onDrag }: GearDrawerProps) {
  const { plan, units, isReadOnly } = usePanel();
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
  const count = racks.length + found.reduce((sum, shelf) => sum + shelf.gear.length, 0);
  const rackHeading = useId();
  // One stop for Tab, arrows inside: a hundred rows must not stand between the keyboard and the drawing.
  const [focused, setFocused] = useState('');
  const rows = [...racks.map(({ id }) => `rack ${id}`), ...found.flatMap((shelf) => shelf.gear.map(({ id }) => id))];
  const stop = rows.includes(focused) ? focused : rows[0];
  const list = useRef<HTMLDivElement>(null);
  const onKeyDown = (event: KeyboardEvent) => {
    const buttons = [...(list.current?.querySelectorAll<HTMLElement>('.gear-row') ?? [])];
    const next = nextRow(event.key, buttons.indexOf(event.target as HTMLElement), buttons.length);
    if (next === null) return;
    event.preventDefault();
    buttons[next].focus();
  };
  return (
    <div className="gear-drawer">
      <SearchField className="search" value={query} onChange={setQuery} aria-label="Find gear">
        <Search aria-hidden="true" className="search-icon" />
        <Label className="unseen">Find gear</Label>
        <Input className="field-input" placeholder="Find gear: 14 snare" />
        <Button className="icon-button search-clear" aria-label="Clear the search">
          <X />
        </Button>
      </SearchField>
      <p role="status" className="unseen">
        {count === 0 ? 'No gear found' : `${count} found`}
      </p>
      {/* biome-ignore lint/a11y/noStaticElementInteractions: the keys belong to the buttons inside */}
      <div className="gear-shelves" ref={list} onKeyDown={onKeyDown}>
        {racks.length > 0 && (
          <section aria-labelledby={rackHeading}>
            <h3 id={rackHeading}>New rack</h3>
            <ul>
              {racks.map(({ id, name, tells }) => (
                <li key={id}>
                  <button
                    type="button"
                    className="gear-row"
                    disabled={isReadOnly}
                    tabIndex={stop === `rack ${id}` ? 0 : -1}
                    onFocus={() => setFocused(`rack ${id}`)}
                    onClick={() => onAddRack(id)}
                  >
                    <Plus aria-hidden="true" />
                    <span className="gear-name">{name}</span>
                    <span className="gear-size">{tells}</span>
                  </button>
                </li>
              ))}
            </ul>
          </section>
        )}
        {found.map((shelf) => (
          <ShelfList
            key={shelf.name}
            name={shelf.name}
            gear={shelf.gear}
            units={units}
            isReadOnly={isReadOnly}
            stop={stop}
            onFocus={setFocused}
            onAdd={onAdd}
            onDrag={onDrag}
          />
        ))}
        {count === 0 && (
          <div className="panel-empty">
            <p>Nothing in the catalogue has “{asked.trim()}” in its name.</p>
            <p>Take the nearest size, put it on the drawing, and enter what your tape says.</p>
          </div>
        )}
      </div>
    </div>
  );
}

interface ShelfListProps {
  readonly name: string;
  readonly gear: readonly Placeable[];
  readonly units: DisplayUnit;
  readonly isReadOnly: boolean;
  /** The row that Tab stops at. */
  readonly stop: string | undefined;
  readonly onFocus: (id: string) => void;
  readonly onAdd: GearDrawerProps['onAdd'];
  readonly onDrag: GearDrawerProps['onDrag'];
}

function ShelfList({ name, gear, ...rest }: ShelfListProps) {
  const id = useId();
  return (
    <section aria-labelledby={id}>
      <h3 id={id}>{name}</h3>
      <ul>
        {gear.map((one) => (
          <li key={one.id}>
            <GearRow gear={one} {...rest} />
          </li>
        ))}
      </ul>
    </section>
  );
}

function massText(gear: Gear, units: DisplayUnit): string {
  const mass = massKgOf(gear);
  return mass === null ? 'mass not known' : formatMass(mass, units);
}

function GearRow({
  gear,
  units,
  isReadOnly,
  stop,
  onFocus,
  onAdd,
  onDrag,
}: Omit<ShelfListProps, 'name' | 'gear'> & { gear: Placeable }) {
  const press = useRef<{ x: number; y: number; id: number } | null>(null);
  const dragged = useRef(false);
  const onPointerDown = (event: PointerEvent) => {
    dragged.current = false;
    // A finger scrolls the list: dragging out of it is for mouse and pen.
    if (onDrag === undefined || event.button !== 0 || event.pointerType === 'touch') return;
    press.current = { x: event.clientX, y: event.clientY, id: event.pointerId };
  };
  const onPointerMove = (event: PointerEvent) => {
    const from = press.current;
    if (from === null || from.id !== event.pointerId) return;
    if (Math.hypot(event.clientX - from.x, event.clientY - from.y) < DRAG_PX) return;
    press.current = null;
    dragged.current = true;
    onDrag?.(gear, event.nativeEvent);
  };
  const over = () => {
    press.current = null;
  };
  const { mark, text } = measuredMark(gear);
  return (
    <button
      type="button"
      className="gear-row"
      disabled={isReadOnly}
      tabIndex={stop === gear.id ? 0 : -1}
      onFocus={() => onFocus(gear.id)}
      onPointerDown={onPointerDown}
      onPointerMove={onPointerMove}
      onPointerUp={over}
      onPointerCancel={over}
      onPointerLeave={onPointerMove}
      onClick={() => {
        if (!dragged.current) onAdd(gear);
        dragged.current = false;
      }}
    >
      <span className="gear-name">{gear.name}</span>
      <span className="gear-size">
        {sizeText(gear, units)} · {massText(gear, units)}
        {mark === 'measured' && (
          <span className="gear-measured" title={text}>
            <Ruler aria-hidden="true" /> <span>measured</span>
          </span>
        )}
      </span>
    </button>
  );
}
