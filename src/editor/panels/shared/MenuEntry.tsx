/** One line of a menu: an icon, what it does, and what else stands after it. */
import type { LucideIcon } from 'lucide-react';
import type { ReactNode } from 'react';
import { MenuItem } from 'react-aria-components';

export interface MenuEntryProps {
  readonly id: string;
  readonly icon: LucideIcon;
  readonly name: string;
  /** What letters typed find it by, where that is not its name. */
  readonly textValue?: string;
  readonly after?: ReactNode;
  readonly isDisabled?: boolean;
  readonly onAction: () => void;
}

export function MenuEntry({ icon: Icon, name, textValue = name, after, ...rest }: MenuEntryProps) {
  return (
    <MenuItem {...rest} className="menu-item" textValue={textValue}>
      <Icon aria-hidden="true" /> {name} {after}
    </MenuItem>
  );
}
