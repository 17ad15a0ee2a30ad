/** A button that shows an icon and is called by its label. */
import type { LucideIcon } from 'lucide-react';
import { Button, type ButtonProps } from 'react-aria-components';

export interface IconButtonProps extends Omit<ButtonProps, 'className' | 'children' | 'aria-label'> {
  readonly label: string;
  readonly icon: LucideIcon;
}

export function IconButton({ label, icon: Icon, ...rest }: IconButtonProps) {
  return (
    <Button {...rest} className="icon-button" aria-label={label}>
      <Icon />
    </Button>
  );
}
