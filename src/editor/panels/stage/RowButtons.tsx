/** What every line of a list can do: go up, go down, go away. */
import { ChevronDown, ChevronUp, Trash2 } from 'lucide-react';
import { IconButton } from '../shared/IconButton.tsx';

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
        <IconButton
          icon={ChevronUp}
          label={`Move ${what} up`}
          isDisabled={isReadOnly || isFirst}
          onPress={() => onMove(-1)}
        />
      </span>
      <span data-col="down">
        <IconButton
          icon={ChevronDown}
          label={`Move ${what} down`}
          isDisabled={isReadOnly || isLast}
          onPress={() => onMove(1)}
        />
      </span>
      <span data-col="remove">
        <IconButton icon={Trash2} label={`Remove ${what}`} isDisabled={isReadOnly} onPress={onRemove} />
      </span>
    </span>
  );
}
