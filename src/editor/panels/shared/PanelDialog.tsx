/** A dialog over the page: its title, its content, a button that closes it. Escape and a tap beside it close it too. */
import { X } from 'lucide-react';
import type { ReactNode } from 'react';
import { Dialog, Heading, Modal, ModalOverlay } from 'react-aria-components';
import { IconButton } from './IconButton.tsx';

export interface PanelDialogProps {
  readonly title: string;
  readonly children: ReactNode;
  readonly onClose: () => void;
  readonly wide?: boolean;
  /** A message that must be answered, not dismissed by a stray tap. */
  readonly alert?: boolean;
}

export function PanelDialog({ title, children, onClose, wide = false, alert = false }: PanelDialogProps) {
  return (
    <ModalOverlay
      className="overlay"
      isOpen
      isDismissable={!alert}
      onOpenChange={(isOpen) => {
        if (!isOpen) onClose();
      }}
    >
      <Modal className={wide ? 'modal modal-wide' : 'modal'}>
        <Dialog className="dialog" role={alert ? 'alertdialog' : 'dialog'}>
          <div className="dialog-head">
            <Heading slot="title" level={2}>
              {title}
            </Heading>
            {!alert && <IconButton icon={X} label="Close" onPress={onClose} />}
          </div>
          {children}
        </Dialog>
      </Modal>
    </ModalOverlay>
  );
}
