/** What the user owns: opened, changed and saved as a file, kept in this browser; and the setup held against it. */

import { FilePlus2, FolderOpen, PackagePlus, Save, Trash2 } from 'lucide-react';
import { useEffect, useMemo, useRef, useState } from 'react';
import { partsOf } from '../../../checks/parts.ts';
import { gearOf } from '../../../gear/catalogue.ts';
import { END_CAP_ID, isPart } from '../../../gear/kinds.ts';
import { type Inventory, newInventory, readInventory, writeInventory } from '../../../plan/inventory.ts';
import { buildFrom } from '../../../solve/buildFrom.ts';
import { formatLength } from '../../../units.ts';
import { buildWords } from '../../../words/buildWords.ts';
import { PLAN_SUFFIX, planFileName } from '../../state/files.ts';
import { liveOf } from '../../state/live.ts';
import { usePanel } from '../../state/panelContext.ts';
import { FieldRow } from '../fields/FieldRows.tsx';
import { ChoiceField } from '../fields/WordField.tsx';
import { gearOfPlan } from '../gear/shelf.ts';
import { gearChoices } from '../shared/gearChoices.ts';
import { groupBy } from '../shared/groupBy.ts';
import { IconButton } from '../shared/IconButton.tsx';
import { TextButton } from '../shared/TextButton.tsx';
import { unbroken } from '../shared/unbroken.ts';
import { PriceCells } from './PriceCells.tsx';
import { OWNED, type OwnedHere, STOCK } from './partFields.ts';
import { addPart, removePart, setPart, withNeeds } from './stockEdits.ts';

export const STOCK_SUFFIX = '.legroom-stock.json';

export function StockPanel() {
  const { plan, setupId, files } = usePanel();
  const store = files.stock;
  const [stock, setStock] = useState<Inventory>(() => newInventory('What I own'));
  const [sentence, setSentence] = useState<string | null>(null);
  const handle = useRef<FileSystemFileHandle | null>(null);
  const planGear = useRef(plan.gear);

  useEffect(() => {
    store.read().then(
      (text) => {
        if (text === null) return;
        const read = readInventory(text, planGear.current);
        if (read.ok) setStock(read.inventory);
        else setSentence(`The list that was kept here cannot be read with this plan. ${read.problem.sentence}`);
      },
      () => setSentence('This browser keeps nothing: save the list to a file before you close the page.'),
    );
  }, [store]);

  const take = (next: Inventory) => {
    setStock(next);
    setSentence(null);
    store
      .keep(writeInventory(next))
      .catch(() => setSentence('This browser could not keep the list: save it to a file before you close the page.'));
  };
  const open = async () => {
    const picked = await files.pick();
    if (!picked.ok) {
      setSentence(picked.sentence);
      return;
    }
    const read = readInventory(picked.file.text, plan.gear);
    if (!read.ok) {
      setSentence(read.problem.sentence);
      return;
    }
    handle.current = picked.file.handle;
    take(read.inventory);
  };
  const save = async () => {
    const fileName = planFileName(stock.name).replace(PLAN_SUFFIX, STOCK_SUFFIX);
    const saved = await files.save(writeInventory(stock), { fileName, handle: handle.current });
    if (saved.ok) handle.current = saved.handle;
    setSentence(saved.ok ? `Saved as “${saved.name}”.` : saved.sentence);
  };
  const fresh = () => {
    handle.current = null;
    take(newInventory('What I own'));
  };
  const choices = useMemo(
    () => [{ id: '', label: 'Add a part …' }, ...gearChoices(gearOfPlan(plan), isPart, null)],
    [plan],
  );

  return (
    <>
      <div className="parts-head">
        <TextButton icon={FolderOpen} onPress={() => void open()}>
          Open a list …
        </TextButton>
        <TextButton icon={Save} onPress={() => void save()} isDisabled={stock.parts.length === 0}>
          Save it to a file
        </TextButton>
        <TextButton icon={PackagePlus} onPress={() => take(withNeeds(stock, partsOf(plan, setupId).all, plan.gear))}>
          I own all of this setup
        </TextButton>
        <TextButton icon={FilePlus2} onPress={fresh} isDisabled={stock.parts.length === 0}>
          Begin anew
        </TextButton>
        <span role="status" className="field-error">
          {sentence}
        </span>
      </div>
      {stock.parts.length === 0 ? (
        <p className="hint">
          Nothing is listed yet. Open a list, or say that you own all of this setup and change the counts; then choose
          another setup and see whether the same parts build it.
        </p>
      ) : (
        <Answer stock={stock} />
      )}
      <ChoiceField
        label="Add a part"
        hideLabel
        value=""
        choices={choices}
        onCommit={(gear) => (gear === '' ? null : void take(addPart(stock, gear)))}
      />
      {stock.parts.length > 0 && <StockTable stock={stock} onChange={take} />}
    </>
  );
}

function Answer({ stock }: { readonly stock: Inventory }) {
  const { plan, setupId, setup } = usePanel();
  const words = useMemo(
    () => buildWords(plan, setupId, stock, buildFrom(plan, setupId, liveOf(plan, setupId).layout, stock)),
    [plan, setupId, stock],
  );
  const lists = [
    { title: 'Missing, and what would have to move', lines: words.missing },
    { title: 'To buy', lines: words.toBuy },
    { title: 'Cut, or other than planned', lines: words.changed },
  ];
  return (
    <section aria-label="Can it be built?">
      <p className="stock-answer" role="status">
        {setup.name}, from {stock.name}. {words.verdict}
        {words.cost !== null && ` Where a price is known, that is ${words.cost}.`}
      </p>
      {lists.map(
        ({ title, lines }) =>
          lines.length > 0 && (
            <details key={title} open={lines === words.missing}>
              <summary>
                {title} ({lines.length})
              </summary>
              <ul className="stock-lines">
                {[...groupBy(lines, (line) => line)].map(([line, { length }]) => (
                  <li key={line}>{unbroken(length > 1 ? `${line} (${length} times)` : line)}</li>
                ))}
              </ul>
            </details>
          ),
      )}
    </section>
  );
}

interface StockTableProps {
  readonly stock: Inventory;
  readonly onChange: (next: Inventory) => void;
}

function StockTable({ stock, onChange }: StockTableProps) {
  const { plan, units } = usePanel();
  const gear = { ...plan.gear, ...stock.gear };
  const nameOf = (id: string) => gearOf(gear, id)?.name ?? (END_CAP_ID.test(id) ? 'End cap' : id);
  return (
    <>
      <div className="stock-names">
        {STOCK.sections.list.map((row) => (
          <FieldRow key={row.path} table={STOCK} row={row} of={{ stock, take: onChange }} />
        ))}
      </div>
      <section className="table-scroll" aria-label="What is owned">
        <table className="parts-table">
          <thead>
            <tr>
              <th scope="col">Count</th>
              <th scope="col">Part</th>
              <th scope="col">Cut length</th>
              <th scope="col">Price for one</th>
              <th scope="col">Note</th>
              <td />
            </tr>
          </thead>
          <tbody>
            {stock.parts.map((part, index) => {
              const name = nameOf(part.gear);
              const known = gearOf(gear, part.gear);
              const cut = part.cutLengthMm === undefined ? '' : formatLength(part.cutLengthMm, units);
              const what = `${name} ${cut}`.trim();
              const here: OwnedHere = {
                what,
                part,
                tubeMm: known?.kind === 'tube' ? known.cutLengthMm : undefined,
                put: (change) => onChange(setPart(stock, index, change)),
              };
              return (
                // biome-ignore lint/suspicious/noArrayIndexKey: two lines may be alike, and a line has no id
                <tr key={index}>
                  <td className="stock-count">
                    <FieldRow table={OWNED} row={OWNED.sections.count[0]} of={here} hideLabel />
                  </td>
                  <td>
                    {name}
                    {part.bend ? `, bent to ${formatLength(part.bend.radiusMm, units)}` : ''}
                  </td>
                  <td className="parts-size">
                    <FieldRow table={OWNED} row={OWNED.sections.cut[0]} of={here} hideLabel />
                  </td>
                  <PriceCells table={OWNED} of={here} />
                  <td>
                    <IconButton
                      icon={Trash2}
                      label={`Take ${what} off the list`}
                      onPress={() => onChange(removePart(stock, index))}
                    />
                  </td>
                </tr>
              );
            })}
          </tbody>
        </table>
      </section>
    </>
  );
}
