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
  const buttons = [
    { col: 'up', icon: ChevronUp, label: `Move ${what} up`, isIdle: isFirst, onPress: () => onMove(-1) },
    { col: 'down', icon: ChevronDown, label: `Move ${what} down`, isIdle: isLast, onPress: () => onMove(1) },
    { col: 'remove', icon: Trash2, label: `Remove ${what}`, isIdle: false, onPress: onRemove },
  ];
  return (
    <span className="row-buttons">
      {buttons.map(({ col, icon, label, isIdle, onPress }) => (
        <span key={col} data-col={col}>
          <IconButton icon={icon} label={label} isDisabled={isReadOnly || isIdle} onPress={onPress} />
        </span>
      ))}
    </span>
  );
}
