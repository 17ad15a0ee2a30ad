/** Two cells of a table of parts: the user's own price for one, and a note. */
import { MeasureField } from '../fields/MeasureField.tsx';
import { PRICE_MEASURE } from '../fields/measures.ts';
import { WordField } from '../fields/WordField.tsx';

export interface PriceCellsProps {
  /** The part, for whoever hears the fields' names. */
  readonly what: string;
  readonly price: number | undefined;
  readonly note: string | undefined;
  /** Null takes it away. The answer is null, or why not. */
  readonly onPrice: (price: number | null) => string | null;
  readonly onNote: (note: string | null) => string | null;
  readonly isReadOnly?: boolean;
}

export function PriceCells({ what, price, note = '', onPrice, onNote, isReadOnly }: PriceCellsProps) {
  return (
    <>
      <td className="parts-size">
        <MeasureField
          label={`Price for one: ${what}`}
          hideLabel
          value={price ?? null}
          measure={PRICE_MEASURE}
          isReadOnly={isReadOnly}
          onCommit={onPrice}
          onClear={() => onPrice(null)}
        />
      </td>
      <td className="parts-note">
        <WordField
          label={`Note: ${what}`}
          hideLabel
          value={note}
          most={4000}
          mayBeEmpty
          isReadOnly={isReadOnly}
          onCommit={(words) => onNote(words === '' ? null : words)}
        />
      </td>
    </>
  );
}

export interface CurrencyFieldProps {
  readonly value: string | undefined;
  readonly onCommit: (currency: string) => string | null;
  readonly isReadOnly?: boolean;
}

export function CurrencyField({ value = '', onCommit, isReadOnly }: CurrencyFieldProps) {
  return (
    <WordField
      label="Prices are in"
      value={value}
      most={10}
      mayBeEmpty
      placeholder="EUR"
      isReadOnly={isReadOnly}
      onCommit={onCommit}
    />
  );
}
