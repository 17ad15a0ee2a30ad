/** A button that shows a menu. The menu comes with the first movement of a hand (`loadMenu`), the button with the page. */
import { type ReactNode, Suspense, useRef, useState } from 'react';
import { Button } from 'react-aria-components';
import { lazyPart } from './lazyPart.tsx';
import type { MenuPart } from './menuParts.ts';

export const loadMenu = () => import('./MenuSheet.tsx');
const MenuSheet = lazyPart(async () => (await loadMenu()).MenuSheet);

interface MenuButtonProps {
  readonly label: string;
  readonly className: string;
  readonly parts: readonly MenuPart[];
  readonly isDisabled?: boolean;
  readonly children: ReactNode;
}

export function MenuButton({ label, className, parts, isDisabled, children }: MenuButtonProps) {
  const [isOpen, setOpen] = useState(false);
  const open = () => setOpen(true);
  const button = useRef<HTMLButtonElement>(null);
  return (
    <>
      <Button
        ref={button}
        className={className}
        aria-label={label}
        aria-haspopup="menu"
        aria-expanded={isOpen}
        isDisabled={isDisabled}
        onPress={open}
        onKeyDown={(event) => {
          if (event.key === 'ArrowDown' || event.key === 'ArrowUp') open();
          // Every other key is somebody else's: this library ends a key's way where nobody says so.
          else event.continuePropagation();
        }}
      >
        {children}
      </Button>
      {isOpen && (
        <Suspense>
          <MenuSheet label={label} parts={parts} trigger={button} onClose={() => setOpen(false)} />
        </Suspense>
      )}
    </>
  );
}
