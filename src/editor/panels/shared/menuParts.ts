/** What a menu lists, as data. */
import type { LucideIcon } from 'lucide-react';
import type { ReactNode } from 'react';

/** One line of a menu: an icon, what it does, and what else stands after it. */
export interface MenuEntry {
  readonly id: string;
  readonly icon: LucideIcon;
  readonly name: string;
  /** What letters typed find it by, where that is not its name. */
  readonly textValue?: string;
  readonly after?: ReactNode;
  readonly isDisabled?: boolean;
  readonly onAction: () => void;
}

/** Lines that belong together; never none. A line is drawn between one part and the next. */
export interface MenuPart {
  readonly header?: string;
  readonly entries: readonly MenuEntry[];
}
