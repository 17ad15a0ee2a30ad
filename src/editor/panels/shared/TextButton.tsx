/** A button that says what it does: in words, after an icon where it has one. */
import type { LucideIcon } from 'lucide-react';
import type { ReactNode } from 'react';
import { Button, type ButtonProps } from 'react-aria-components';

export interface TextButtonProps extends Omit<ButtonProps, 'className' | 'children'> {
  readonly icon?: LucideIcon;
  readonly look?: 'main' | 'quiet';
  readonly children: ReactNode;
}

export function TextButton({ icon: Icon, look, children, ...rest }: TextButtonProps) {
  return (
    <Button {...rest} className={look ? `button button-${look}` : 'button'}>
      {Icon && <Icon aria-hidden="true" />} {children}
    </Button>
  );
}
