/** The sheets: which one, how it should be, its pages as pictures while they are drawn in a worker, and the files of it. */

import { ChevronLeft, ChevronRight, Download, Share2 } from 'lucide-react';
import { useState } from 'react';
import { Button, Input, Label, ProgressBar, Radio, RadioGroup, TextField } from 'react-aria-components';
import { MOST_COMPARED } from '../../../sheets/comparisonSheet.ts';
import { formatsOf, KINDS, SHEET_KINDS, type SheetFormat, type SheetWish, takes } from '../../../sheets/kinds.ts';
import { LEAST_PER_METRE, USUAL_PER_METRE } from '../../../sheets/pixels.ts';
import { SCALES } from '../../../sheets/scaleBar.ts';
import { usePanel } from '../../state/panelContext.ts';
import { MeasureField } from '../fields/MeasureField.tsx';
import { countMeasure } from '../fields/measures.ts';
import { ChoiceField, SwitchField } from '../fields/WordField.tsx';
import { IconButton } from '../shared/IconButton.tsx';
import { PanelDialog } from '../shared/PanelDialog.tsx';
import { TextButton } from '../shared/TextButton.tsx';
import type { SheetWishes } from './order.ts';
import { SheetPage } from './SheetPage.tsx';
import { lastWishes, PAGE_FORMATS, useSheets } from './useSheets.ts';
import './sheets.css';

/** Setups beside the one. */
const MOST_AGAINST = MOST_COMPARED - 1;

const PIXELS = countMeasure({ least: LEAST_PER_METRE, most: 40_000, steps: [100, 1000, 5000], example: '10000' });

const FORMAT_WORDS: Readonly<Record<SheetFormat, string>> = {
  pdf: 'PDF',
  svg: 'SVG',
  png: 'PNG',
  dxf: 'DXF',
  csv: 'CSV',
};

/** What a sheet must take, and the wish that a switch then asks for. */
const SWITCHES: readonly (readonly [SheetWish, 'flags' | 'long' | 'owned', string])[] = [
  ['flags', 'flags', 'Number the findings on it'],
  ['long', 'long', 'One long page, for a plotter'],
  ['stock', 'owned', 'Say what is owned and what is missing'],
];

export interface SheetsDialogProps {
  /** YYYY-MM-DD. */
  readonly today: string;
  readonly onClose: () => void;
}

export function SheetsDialog({ today, onClose }: SheetsDialogProps) {
  const { plan, setupId, setup } = usePanel();
  const others = plan.order.filter((id) => id !== setupId);
  const [wishes, setWishes] = useState<SheetWishes>(() => ({
    kind: KINDS[0],
    // Where lengths are in inches, so is the paper.
    paper: plan.units === 'in' ? 'letter' : 'a4',
    turned: 'fit',
    scale: null,
    flags: false,
    long: false,
    owned: false,
    pixelsPerMetre: USUAL_PER_METRE,
    ...lastWishes(),
    units: plan.units,
    date: today,
    title: plan.name,
    revision: plan.revision ?? 'A',
    against: others.slice(0, 1),
  }));
  const wish = (change: Partial<SheetWishes>) => setWishes((now) => ({ ...now, ...change }));
  const { drawn, pageIndex, setPageIndex, progress, sentence, save, share, isWriting } = useSheets(wishes);
  const { kind } = wishes;
  const formats = formatsOf(kind);
  const may = (wish: SheetWish): boolean => takes(kind, wish);
  const page = drawn?.pages[pageIndex];
  const count = drawn?.pages.length ?? 0;
  const isAlone = may('against') && others.length === 0;

  const text = (label: string, key: 'title' | 'date' | 'revision', type = 'text') => (
    <TextField className="field" value={wishes[key]} onChange={(value) => wish({ [key]: value })} type={type}>
      <Label className="field-label">{label}</Label>
      <Input className="field-input" maxLength={key === 'revision' ? 20 : 120} />
    </TextField>
  );
  const choice = <K extends 'paper' | 'turned' | 'units'>(
    label: string,
    key: K,
    choices: readonly { readonly id: SheetWishes[K]; readonly label: string }[],
  ) => <ChoiceField label={label} value={wishes[key]} choices={choices} onCommit={(id) => void wish({ [key]: id })} />;
  return (
    <PanelDialog title={`Sheets of ${setup.name || 'the setup'}`} onClose={onClose} wide>
      <div className="sheets">
        <RadioGroup
          className="sheets-kinds"
          aria-label="Which sheet"
          value={kind}
          onChange={(id) => wish({ kind: id as SheetWishes['kind'] })}
        >
          {KINDS.map((id) => (
            <Radio key={id} value={id} className="sheets-kind">
              <strong>{SHEET_KINDS[id].label}</strong>
              <span>{SHEET_KINDS[id].hint}</span>
            </Radio>
          ))}
        </RadioGroup>
        <div className="sheets-wishes">
          {may('against') && others.length > 0 && (
            <fieldset className="sheets-against">
              <legend className="field-label">Beside {setup.name || 'this setup'}, up to three</legend>
              {others.map((id) => (
                <SwitchField
                  key={id}
                  label={plan.setups[id].name}
                  value={wishes.against.includes(id)}
                  isReadOnly={wishes.against.length >= MOST_AGAINST && !wishes.against.includes(id)}
                  onCommit={(isIn) =>
                    wish({ against: others.filter((one) => (one === id ? isIn : wishes.against.includes(one))) })
                  }
                />
              ))}
            </fieldset>
          )}
          <div className="field-grid">
            {choice('Paper', 'paper', [
              { id: 'a4', label: 'A4' },
              { id: 'letter', label: 'Letter' },
            ])}
            {choice('Lengths', 'units', [
              { id: 'mm', label: 'Millimetres' },
              { id: 'in', label: 'Feet, inches' },
            ])}
            {may('turned') &&
              choice('Paper turned', 'turned', [
                { id: 'fit', label: 'As it fits best' },
                { id: 'upright', label: 'Upright' },
                { id: 'lying', label: 'Lying' },
              ])}
            {may('scale') && (
              <ChoiceField
                label="Scale"
                value={String(wishes.scale ?? '')}
                choices={[
                  { id: '', label: 'Largest that fits' },
                  ...SCALES.map((scale) => ({ id: String(scale), label: `1:${scale}` })),
                ]}
                onCommit={(id) => void wish({ scale: id === '' ? null : Number(id) })}
              />
            )}
          </div>
          {text('Title', 'title')}
          <div className="field-grid sheets-issue">
            {text('Date', 'date', 'date')}
            {text('Revision', 'revision')}
          </div>
          {SWITCHES.filter(([asks]) => may(asks)).map(([, key, label]) => (
            <SwitchField key={key} label={label} value={wishes[key]} onCommit={(is) => wish({ [key]: is })} />
          ))}
        </div>
        <div className="sheets-result">
          <div className="sheets-stage" aria-busy={progress !== null}>
            {isAlone ? (
              <p className="hint">
                This plan has one setup. Duplicate it and change the copy: then there is something to compare.
              </p>
            ) : page ? (
              <SheetPage page={page} label={`Page ${pageIndex + 1} of ${count}: ${page.subject}`} />
            ) : (
              <p className="hint">{sentence ?? 'Drawing …'}</p>
            )}
            {progress !== null && (
              <ProgressBar className="sheets-progress" aria-label="Making the sheet" value={progress * 100}>
                <span className="sheets-progress-bar" style={{ width: `${progress * 100}%` }} />
              </ProgressBar>
            )}
          </div>
          <div className="sheets-pages">
            <IconButton
              icon={ChevronLeft}
              label="Page before"
              isDisabled={pageIndex === 0}
              onPress={() => setPageIndex(pageIndex - 1)}
            />
            <span role="status">{count === 0 ? '' : `Page ${pageIndex + 1} of ${count}. ${page?.subject ?? ''}`}</span>
            <IconButton
              icon={ChevronRight}
              label="Page after"
              isDisabled={pageIndex >= count - 1}
              onPress={() => setPageIndex(pageIndex + 1)}
            />
          </div>
          <div role="status" className="sheets-remarks">
            {[...(page && sentence !== null ? [sentence] : []), ...(drawn?.remarks ?? [])].map((line) => (
              <p key={line}>{line}</p>
            ))}
          </div>
          <div className="sheets-files">
            {formats.map((format, k) => (
              <Button
                key={format}
                className={k === 0 ? 'button button-main' : 'button'}
                isDisabled={!page}
                isPending={isWriting}
                onPress={() => void save(format)}
              >
                <Download aria-hidden="true" /> {FORMAT_WORDS[format]}
                {PAGE_FORMATS.has(format) && count > 1 ? ' of this page' : ''}
              </Button>
            ))}
            {share && (
              <TextButton icon={Share2} isDisabled={!page} isPending={isWriting} onPress={() => void share()}>
                Send …
              </TextButton>
            )}
            {formats.includes('png') && (
              <MeasureField
                label="PNG, pixels per metre of paper"
                value={wishes.pixelsPerMetre}
                measure={PIXELS}
                onCommit={(pixelsPerMetre) => {
                  wish({ pixelsPerMetre });
                  return null;
                }}
              />
            )}
          </div>
          <p className="hint">Print at 100 %, not “fit to page”. Contact, stage and lists are the plan’s own.</p>
        </div>
      </div>
    </PanelDialog>
  );
}
