/** What a menu's button shows: lines in sections, in a pop-over. Only `MenuButton` shows it. */
import { Fragment, type RefObject } from 'react';
import { Header, Menu, MenuItem, MenuSection, Popover, Separator } from 'react-aria-components';
import type { MenuEntry, MenuPart } from './menuParts.ts';

export interface MenuSheetProps {
  readonly label: string;
  readonly parts: readonly MenuPart[];
  readonly trigger: RefObject<HTMLElement | null>;
  readonly onClose: () => void;
}

export function MenuSheet({ label, parts, trigger, onClose }: MenuSheetProps) {
  return (
    <Popover
      className="popover"
      trigger="MenuTrigger"
      triggerRef={trigger}
      placement="bottom start"
      isOpen
      onOpenChange={(isOpen) => !isOpen && onClose()}
    >
      <Menu className="menu" aria-label={label} autoFocus="first" onClose={onClose}>
        {parts.map(({ header, entries }, at) => (
          <Fragment key={entries[0].id}>
            {header === undefined ? (
              entries.map((entry) => <Entry key={entry.id} {...entry} />)
            ) : (
              <MenuSection>
                <Header className="menu-header">{header}</Header>
                {entries.map((entry) => (
                  <Entry key={entry.id} {...entry} />
                ))}
              </MenuSection>
            )}
            {at < parts.length - 1 && <Separator className="menu-line" />}
          </Fragment>
        ))}
      </Menu>
    </Popover>
  );
}

function Entry({ icon: Icon, name, textValue = name, after, ...rest }: MenuEntry) {
  return (
    <MenuItem {...rest} className="menu-item" textValue={textValue}>
      <Icon aria-hidden="true" /> {name} {after}
    </MenuItem>
  );
}
