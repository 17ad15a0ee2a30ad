/** Voltage and load of one power drop, in the table of all and at the piece itself. */
import type { Item } from '../../../plan/schema.ts';
import { usePanel } from '../../state/panelContext.ts';
import { MeasureField } from '../fields/MeasureField.tsx';
import { loadMeasure, voltageMeasure } from '../fields/measures.ts';

type Power = NonNullable<Item['power']>;

/** Mains where lengths are in inches, and elsewhere. Common practice, no source: the venue's plate says what it is. */
const usualVolts = (units: 'mm' | 'in'): number => (units === 'in' ? 120 : 230);

interface PowerFieldProps {
  readonly drop: Item;
  /** Its label is spoken only. */
  readonly hidden?: boolean;
}

function usePower(drop: Item) {
  const { setupId, units, run, isReadOnly } = usePanel();
  const volts = usualVolts(units);
  const set = (power: Power | null, gesture?: string) =>
    run({ type: 'setPiece', setup: setupId, piece: drop.id, set: { power } }, gesture);
  return { volts, set, isReadOnly };
}

export function VoltsField({ drop, hidden }: PowerFieldProps) {
  const { volts, set, isReadOnly } = usePower(drop);
  return (
    <MeasureField
      label={hidden ? `Voltage, ${drop.name || drop.gear}` : 'Voltage'}
      hideLabel={hidden}
      value={drop.power?.volts ?? null}
      otherwise={volts}
      measure={voltageMeasure()}
      isReadOnly={isReadOnly}
      onCommit={(value, gesture) => set({ loadW: null, ...drop.power, volts: value }, gesture)}
      onClear={() => set(null)}
    />
  );
}

export function LoadField({ drop, hidden }: PowerFieldProps) {
  const { volts, set, isReadOnly } = usePower(drop);
  return (
    <MeasureField
      label={hidden ? `Load, ${drop.name || drop.gear}` : 'Load'}
      hideLabel={hidden}
      note={drop.power?.loadW === null || drop.power === undefined ? (hidden ? undefined : 'not known') : undefined}
      value={drop.power?.loadW ?? null}
      measure={loadMeasure()}
      isReadOnly={isReadOnly}
      onCommit={(loadW, gesture) => set({ volts, ...drop.power, loadW }, gesture)}
      onClear={() => set({ volts, ...drop.power, loadW: null })}
    />
  );
}
