/** A button that says what it does: in words, after an icon where it has one. */
import type { LucideIcon } from 'lucide-react';
import type { ReactNode } from 'react';
import { Button, type ButtonProps } from 'react-aria-components';

const LOOKS = { plain: 'button', main: 'button button-main', quiet: 'button button-quiet' };

export interface TextButtonProps extends Omit<ButtonProps, 'className' | 'children'> {
  readonly icon?: LucideIcon;
  readonly look?: keyof typeof LOOKS;
  readonly children: ReactNode;
}

export function TextButton({ icon: Icon, look = 'plain', children, ...rest }: TextButtonProps) {
  return (
    <Button {...rest} className={LOOKS[look]}>
      {Icon && <Icon aria-hidden="true" />} {children}
    </Button>
  );
}
