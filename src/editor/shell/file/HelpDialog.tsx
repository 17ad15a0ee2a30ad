/** How the page works: the drawing's keys, what the marks mean, and what none of this replaces. */

import { STATE_MEANS, STATE_WORDS, STATES } from '../../../words/states.ts';
import { PanelDialog } from '../../panels/shared/PanelDialog.tsx';
import { StateMark } from '../../panels/shared/StateMark.tsx';
import { KEYS, type KeyRow } from '../../state/keys.ts';

type KeyHelp = Pick<KeyRow, 'shown' | 'does'>;

const FIELD_KEYS: readonly KeyHelp[] = [
  { shown: 'Enter', does: 'Take what is typed' },
  { shown: 'Escape', does: 'Back to what was there' },
  { shown: 'Arrow up, down', does: 'One step; with Shift ten' },
];

const EVERYWHERE: readonly KeyHelp[] = [
  { shown: 'F1', does: 'This help' },
  { shown: 'Ctrl + O, Ctrl + S', does: 'Open a plan, save it to a file' },
  { shown: 'Arrow up, down', does: 'From row to row in the lists of gear and pieces' },
];

function KeyTable({ title, keys }: { readonly title: string; readonly keys: readonly KeyHelp[] }) {
  return (
    <section>
      <h3>{title}</h3>
      <dl className="help-keys">
        {keys.map(({ shown, does }) => (
          <div key={shown}>
            <dt>
              <kbd>{shown}</kbd>
            </dt>
            <dd>{does}</dd>
          </div>
        ))}
      </dl>
    </section>
  );
}

export function HelpDialog({ onClose }: { readonly onClose: () => void }) {
  return (
    <PanelDialog title="Help" onClose={onClose} wide>
      <div className="help">
        <div>
          <section>
            <h3>Lengths</h3>
            <p>
              Type them as your tape reads: <code>6' 8 1/2"</code>, <code>80.5 in</code>, <code>2.04 m</code> or{' '}
              <code>2040</code>. A bare number is in the plan’s own unit.
            </p>
          </section>
          <section>
            <h3>Findings</h3>
            <ul className="help-states">
              {STATES.map((state) => (
                <li key={state}>
                  <StateMark state={state} /> {STATE_WORDS[state]}: {STATE_MEANS[state]}.
                </li>
              ))}
            </ul>
          </section>
          <KeyTable title="In a field" keys={FIELD_KEYS} />
          <KeyTable title="Everywhere" keys={EVERYWHERE} />
          <section>
            <h3>Care</h3>
            <p>
              Sizes of the catalogue are typical ones: measure what you own and enter it. Loads, tipping, lifting and
              the edge of a riser can hurt people: the venue, local rules and licensed practice decide, not this
              drawing.
            </p>
          </section>
          <section>
            <h3>Licence</h3>
            <p>
              Free software under the MIT licence, made with the work of others:{' '}
              <a href="./licences.txt" target="_blank" rel="noopener">
                all licences
              </a>
              .
            </p>
          </section>
        </div>
        <KeyTable title="On the drawing" keys={KEYS} />
      </div>
    </PanelDialog>
  );
}
