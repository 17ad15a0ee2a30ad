/** A setup as a small drawing, at the one scale that all cards share. */
import { memo } from 'react';
import { type Picture, viewBoxOf } from './picture.ts';

export interface MiniPlanProps {
  readonly picture: Picture;
  readonly window: { readonly widthMm: number; readonly heightMm: number };
  /** The deck's outline, corner by corner, mm. */
  readonly deck: readonly (readonly number[])[];
}

export const MiniPlan = memo(function MiniPlan({ picture, window, deck }: MiniPlanProps) {
  return (
    <svg className="mini-plan" viewBox={viewBoxOf(picture, window)} aria-hidden="true">
      {deck.map((corners, i) => (
        <polygon
          // biome-ignore lint/suspicious/noArrayIndexKey: an outline is its place in the list
          key={i}
          className="mini-deck"
          points={corners.map((value, k) => (k % 2 === 0 ? value : -value)).join(' ')}
        />
      ))}
      {picture.marks.map(({ id, path, kind, onFloor }) => (
        <path key={id} className={`mini mini-${kind}${onFloor ? ' mini-floor' : ''}`} d={path} />
      ))}
    </svg>
  );
});
