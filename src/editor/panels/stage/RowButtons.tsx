/** What every line of a list can do: go up, go down, go away. */
import { ChevronDown, ChevronUp, Trash2 } from 'lucide-react';
import { Button } from 'react-aria-components';

export interface RowButtonsProps {
  /** "channel 3": whose buttons these are. */
  readonly what: string;
  readonly isFirst: boolean;
  readonly isLast: boolean;
  readonly isReadOnly: boolean;
  readonly onMove: (by: 1 | -1) => void;
  readonly onRemove: () => void;
}

export function RowButtons({ what, isFirst, isLast, isReadOnly, onMove, onRemove }: RowButtonsProps) {
  return (
    <span className="row-buttons">
      <span data-col="up">
        <Button
          className="icon-button"
          aria-label={`Move ${what} up`}
          isDisabled={isReadOnly || isFirst}
          onPress={() => onMove(-1)}
        >
          <ChevronUp />
        </Button>
      </span>
      <span data-col="down">
        <Button
          className="icon-button"
          aria-label={`Move ${what} down`}
          isDisabled={isReadOnly || isLast}
          onPress={() => onMove(1)}
        >
          <ChevronDown />
        </Button>
      </span>
      <span data-col="remove">
        <Button className="icon-button" aria-label={`Remove ${what}`} isDisabled={isReadOnly} onPress={onRemove}>
          <Trash2 />
        </Button>
      </span>
    </span>
  );
}
