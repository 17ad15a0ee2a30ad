/** The venue sheet: what it should say, how it will look, and the PDF. */
import { useEffect, useState } from 'react';
import { Button, Input, Label, TextField } from 'react-aria-components';
import { download, PLAN_SUFFIX, planFileName } from '../../storage/planFile.ts';
import { ChoiceField, SwitchField } from '../fields/WordField.tsx';
import { PanelDialog } from '../shared/PanelDialog.tsx';
import type { SheetSource, SheetWishes } from './venuePdf.ts';

export interface SheetDialogProps {
  readonly source: SheetSource;
  /** YYYY-MM-DD. */
  readonly today: string;
  readonly onClose: () => void;
}

/** The sheet's code and the PDF writer come only when a sheet is asked for. */
const load = () => import('./venuePdf.ts');

export function SheetDialog({ source, today, onClose }: SheetDialogProps) {
  const { plan, setupId } = source;
  const [wishes, setWishes] = useState<SheetWishes>({
    // Where lengths are in inches, so is the paper.
    paper: plan.units === 'in' ? 'letter' : 'a4',
    date: today,
    title: plan.name,
    revision: 'A',
    flags: false,
  });
  const [preview, setPreview] = useState<string | null>(null);
  const [sentence, setSentence] = useState<string | null>(null);
  const [isMaking, setIsMaking] = useState(false);
  const wish = (change: Partial<SheetWishes>) => setWishes((now) => ({ ...now, ...change }));

  useEffect(() => {
    let isCurrent = true;
    load()
      .then(async ({ makeSheets, previewOf }) => previewOf(await makeSheets(source, wishes)))
      .then(
        (image) => {
          if (!isCurrent) return;
          setPreview(image);
          setSentence(null);
        },
        (problem: Error) => {
          if (isCurrent) setSentence(`The sheet could not be drawn: ${problem.message}`);
        },
      );
    return () => {
      isCurrent = false;
    };
  }, [source, wishes]);

  const save = async () => {
    setIsMaking(true);
    try {
      const { makeSheets, makePdf } = await load();
      const { blob, missing } = await makePdf(await makeSheets(source, wishes));
      const name = `${plan.name} - ${plan.setups[setupId].name}`;
      download(blob, planFileName(name).replace(PLAN_SUFFIX, '.pdf'));
      setSentence(
        missing.length === 0
          ? null
          : `The PDF was made, but its typeface lacks ${missing.join(' ')}: a box stands in their place.`,
      );
    } catch (problem) {
      setSentence(`The PDF could not be made: ${(problem as Error).message}`);
    } finally {
      setIsMaking(false);
    }
  };
  const text = (label: string, key: 'title' | 'date' | 'revision', type = 'text') => (
    <TextField className="field" value={wishes[key]} onChange={(value) => wish({ [key]: value })} type={type}>
      <Label className="field-label">{label}</Label>
      <Input className="field-input" maxLength={120} />
    </TextField>
  );
  return (
    <PanelDialog title="Venue sheet" onClose={onClose} wide>
      <div className="sheet-dialog">
        <div className="sheet-wishes">
          {text('Title', 'title')}
          <div className="field-grid">
            {text('Date', 'date', 'date')}
            {text('Revision', 'revision')}
          </div>
          <ChoiceField
            label="Paper"
            value={wishes.paper}
            choices={[
              { id: 'a4', label: 'A4' },
              { id: 'letter', label: 'Letter' },
            ]}
            onCommit={(paper) => {
              wish({ paper: paper as SheetWishes['paper'] });
              return null;
            }}
          />
          <SwitchField label="Number the findings on it" value={wishes.flags} onCommit={(flags) => wish({ flags })} />
          <p role="status" className="field-error">
            {sentence}
          </p>
          <p className="hint">Contact and notes come from the plan’s settings. Print at 100 %, not “fit to page”.</p>
          <Button className="button button-main" onPress={save} isDisabled={isMaking || preview === null}>
            {isMaking ? 'Making the PDF …' : 'Save the PDF'}
          </Button>
        </div>
        <div className="sheet-preview">
          {preview === null ? (
            <p className="hint">Drawing …</p>
          ) : (
            <img src={preview} alt={`Preview of the sheet for ${plan.setups[setupId].name}`} />
          )}
        </div>
      </div>
    </PanelDialog>
  );
}
