/** Puts only those rows of a list into the page that are in sight. */
import type { ReactNode } from 'react';
import { ListLayout, Virtualizer } from 'react-aria-components';

/** About what a row and a heading take, until they are measured. CSS px. */
const HEIGHTS = { estimatedRowHeight: 52, estimatedHeadingHeight: 26 };

export function RowsInSight({ children }: { readonly children: ReactNode }) {
  return (
    <Virtualizer layout={ListLayout} layoutOptions={HEIGHTS}>
      {children}
    </Virtualizer>
  );
}
