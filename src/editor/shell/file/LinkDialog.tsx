/** The plan as a link: the link, what it holds, how long it is, and how it gets to somebody else. */
import { Copy } from 'lucide-react';
import { useEffect, useState } from 'react';
import { Input, Label, TextField } from 'react-aria-components';
import { writePlan } from '../../../plan/write.ts';
import { PanelDialog } from '../../panels/shared/PanelDialog.tsx';
import { TextButton } from '../../panels/shared/TextButton.tsx';
import { usePanel } from '../../state/panelContext.ts';
import { LONG_LINK, linkOf, MOST_LINK } from '../../storage/planLink.ts';

/** A page that only this computer serves. */
const IS_HERE = /^(localhost|127\.|\[::1\])/.test(location.hostname);

const count = (characters: number) => characters.toLocaleString('en');

export function LinkDialog({ onClose }: { readonly onClose: () => void }) {
  const { plan } = usePanel();
  const [link, setLink] = useState<string | null>(null);
  const [said, setSaid] = useState('');
  useEffect(() => {
    let isCurrent = true;
    setSaid('');
    void linkOf(writePlan(plan)).then((made) => isCurrent && setLink(location.href.split('#')[0] + made));
    return () => {
      isCurrent = false;
    };
  }, [plan]);
  const copy = () =>
    navigator.clipboard?.writeText(link ?? '').then(
      () => setSaid('The link is copied.'),
      () => setSaid('This browser did not let the page copy: select the link and copy it.'),
    ) ?? setSaid('On a page without https browsers do not copy: select the link and copy it.');
  const isTooLong = link !== null && link.length > MOST_LINK;
  return (
    <PanelDialog title="Link to this plan" onClose={onClose}>
      {isTooLong ? (
        <p>
          This plan is too large for a link: it would have {count(link.length)} characters, and the most is{' '}
          {count(MOST_LINK)}. Save the plan to a file, and send the file.
        </p>
      ) : (
        <>
          <TextField className="field" value={link ?? ''} isReadOnly>
            <Label className="field-label">Link{link !== null && `, ${count(link.length)} characters`}</Label>
            <Input className="field-input" onFocus={({ target }) => target.select()} />
          </TextField>
          <p className="hint">
            The plan itself is in the link: every setup, note and contact. No server keeps it. Whoever opens it has a
            copy of their own, beside their other plans; what you change later is not in it.
          </p>
          {link !== null && link.length > LONG_LINK && (
            <p>Some mail and chat programs cut links as long as this. If it does not open, send the file.</p>
          )}
          {IS_HERE && <p>This page is served by this computer alone: the link opens here and nowhere else.</p>}
        </>
      )}
      <div className="dialog-buttons">
        <span role="status">{said}</span>
        {!isTooLong && (
          <TextButton icon={Copy} look="main" isDisabled={link === null} onPress={() => void copy()}>
            Copy link
          </TextButton>
        )}
      </div>
    </PanelDialog>
  );
}
