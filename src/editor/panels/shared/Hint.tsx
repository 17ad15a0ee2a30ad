/** What a tool does, and by which key: shown when the pointer rests on it. */
import type { ReactElement } from 'react';
import { Tooltip, type TooltipProps, TooltipTrigger } from 'react-aria-components';

export interface HintProps extends Pick<TooltipProps, 'placement'> {
  readonly text: string;
  readonly keys?: string;
  readonly children: ReactElement;
}

export function Hint({ text, keys, placement, children }: HintProps) {
  return (
    <TooltipTrigger delay={400}>
      {children}
      <Tooltip className="tooltip" placement={placement} offset={6}>
        {text}
        {keys !== undefined && <kbd>{keys}</kbd>}
      </Tooltip>
    </TooltipTrigger>
  );
}
