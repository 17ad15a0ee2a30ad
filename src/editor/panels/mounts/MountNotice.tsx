/** A small question over the drawing when a drum or cymbal was put down within reach of a rack. Going on working is an answer too. */

import { useEffect, useState } from 'react';
import { committedLive, type Editor, useEditor } from '../../state/store.ts';
import { TextButton } from '../shared/TextButton.tsx';
import './mounts.css';
import type { MountOffer } from '../../state/mountOffer.ts';
import { unbroken } from '../shared/unbroken.ts';

export function MountNotice({ editor }: { readonly editor: Editor }) {
  const [offer, setOffer] = useState<(MountOffer & { readonly words: string }) | null>(null);
  const plan = useEditor(editor, ({ history }) => history.plan);
  useEffect(() => {
    let waiting = 0;
    const stop = editor.store.subscribe((now, before) => {
      if (now.history.plan === before.history.plan && now.setupId === before.setupId) return;
      window.clearTimeout(waiting);
      setOffer(null);
      // Undo and redo go back to what was decided; another document or setup is no gesture.
      const isStep = now.history.past.length >= before.history.past.length && now.history.future.length === 0;
      if (!isStep || now.setupId !== before.setupId || now.history.past.length === 0 || now.isReadOnly) return;
      // After the frame that shows the piece where it was let go. The search for mounts comes with the first piece that is put down.
      waiting = window.setTimeout(async () => {
        const parts = await Promise.all([
          import('../../state/mountOffer.ts'),
          import('../../../words/mountWords.ts'),
        ]).catch(() => null);
        // An offer is a comfort: without it the piece stays free.
        if (parts === null) return;
        const [{ offerFor }, { offerWords }] = parts;
        const { plan } = now.history;
        const { setupId } = now;
        const found = editor.plan() === plan ? offerFor(before.history.plan, plan, setupId) : null;
        const piece = found && plan.setups[setupId].pieces[found.piece];
        if (piece?.kind === 'item')
          setOffer({ ...found!, words: unbroken(offerWords(plan.setups[setupId], piece, found!.proposal)) });
      }, 30);
    });
    return () => {
      stop();
      window.clearTimeout(waiting);
    };
  }, [editor]);
  const { setup } = committedLive(editor.store.getState());
  const item = offer && setup.pieces[offer.piece];
  if (!offer || item?.kind !== 'item' || plan !== editor.plan()) return null;
  const mount = () => {
    const { mount: wanted } = offer.proposal;
    setOffer(null);
    editor.run({ type: 'setPiece', setup: setup.id, piece: item.id, set: { mount: wanted } });
  };
  return (
    <div className="mount-notice" role="status">
      <span>{offer.words}</span>
      <TextButton look="main" onPress={mount}>
        Mount
      </TextButton>
      <TextButton onPress={() => setOffer(null)}>Keep free</TextButton>
    </div>
  );
}
