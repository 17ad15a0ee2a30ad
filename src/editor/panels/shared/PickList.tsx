/**
 * A list to pick rows from: one stop for Tab, arrows walk, letters find, Space or Enter picks. Of a long one only the rows in sight
 * are in the page.
 */
import { Fragment, lazy, Suspense } from 'react';
import { ListBox, type ListBoxProps } from 'react-aria-components';

/** Beyond this many rows, those out of sight cost more than finding out which they are. */
const LONG = 150;

/** Without it the whole list is in the page: slower, and all there. */
const RowsInSight = lazy(async () => ({
  default: await import('./RowsInSight.tsx').then(
    (part) => part.RowsInSight,
    () => Fragment,
  ),
}));

export interface PickListProps<T> extends ListBoxProps<T> {
  /** How many rows there are. */
  readonly count: number;
}

export function PickList<T extends object>({ count, ...props }: PickListProps<T>) {
  // Escape is the page's: it ends what is going on, and leaves what is chosen.
  const list = <ListBox {...props} escapeKeyBehavior="none" />;
  if (count <= LONG) return list;
  return (
    <Suspense>
      <RowsInSight>{list}</RowsInSight>
    </Suspense>
  );
}
