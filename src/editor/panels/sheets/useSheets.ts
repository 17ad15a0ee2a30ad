/** Draws sheets as the wishes change and rest, and writes their files when they are asked for: all in the worker. */
import { useEffect, useRef, useState } from 'react';
import { labelOf, type SheetFormat } from '../../../sheets/kinds.ts';
import { PLAN_SUFFIX, planFileName } from '../../state/files.ts';
import { usePanel } from '../../state/panelContext.ts';
import type { DrawnSheets, MadeFile, SheetOrder, SheetWishes } from './order.ts';
import { type SheetMaker, startSheetMaker } from './sheetMaker.ts';

/** Formats that hold one page. */
export const PAGE_FORMATS: ReadonlySet<SheetFormat> = new Set(['svg', 'png']);

/** The last wishes of this visit, so that the next sheet of a plan is asked for once. */
let before: SheetWishes | null = null;

export const lastWishes = (): SheetWishes | null => before;

/** Typing a title draws once it rests. */
const REST_MS = 180;

export function useSheets(wishes: SheetWishes) {
  const { plan, setupId, files } = usePanel();
  const maker = useRef<SheetMaker | null>(null);
  const [drawn, setDrawn] = useState<DrawnSheets | null>(null);
  const [pageIndex, setPageIndex] = useState(0);
  const [progress, setProgress] = useState<number | null>(null);
  const [sentence, setSentence] = useState<string | null>(null);
  const [isWriting, setIsWriting] = useState(false);
  const [stockText, setStockText] = useState<string | null>(null);

  useEffect(() => {
    before = wishes;
  }, [wishes]);
  useEffect(() => {
    const made = startSheetMaker();
    maker.current = made;
    return () => {
      made.close();
      maker.current = null;
    };
  }, []);
  useEffect(() => {
    if (!wishes.owned) return;
    files.stock
      .read()
      .then(setStockText, () => setSentence('The list of what you own could not be read from this browser.'));
  }, [wishes.owned, files]);

  const { kind } = wishes;
  const pictureKey = JSON.stringify({ ...wishes, pixelsPerMetre: 0 });
  const order: SheetOrder = { plan, setupId, wishes, stockText };
  const current = useRef(order);
  // The file made for sharing, until the sheet is another one.
  const shareKey = JSON.stringify([setupId, pictureKey, stockText]);
  const shareable = useRef<{ readonly plan: object; readonly key: string; readonly file: File } | null>(null);
  current.current = order;
  // biome-ignore lint/correctness/useExhaustiveDependencies: the order is read when the rest is over
  useEffect(() => {
    let isCurrent = true;
    const rest = setTimeout(() => {
      const show = (done: number, all: number) => isCurrent && setProgress(done / all);
      setProgress(0);
      maker.current
        ?.draw(current.current, show)
        .then((sheets) => {
          if (!isCurrent || sheets === null) return;
          setDrawn(sheets);
          setPageIndex((index) => Math.min(index, sheets.pages.length - 1));
          setSentence(null);
        })
        .catch((problem: Error) => {
          if (!isCurrent) return;
          setDrawn(null);
          setSentence(problem.message);
        })
        .finally(() => isCurrent && setProgress(null));
    }, REST_MS);
    return () => {
      isCurrent = false;
      clearTimeout(rest);
    };
  }, [plan, setupId, pictureKey, stockText]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: another kind of sheet begins at its first page
  useEffect(() => setPageIndex(0), [kind]);

  const write = async (format: SheetFormat): Promise<MadeFile | null> => {
    setIsWriting(true);
    setProgress(0);
    try {
      const made = await maker.current?.write(current.current, format, pageIndex, (done, all) =>
        setProgress(done / all),
      );
      setSentence(null);
      return made ?? null;
    } catch (problem) {
      setSentence((problem as Error).message);
      return null;
    } finally {
      setIsWriting(false);
      setProgress(null);
    }
  };
  const nameOf = (format: SheetFormat) => {
    const page = PAGE_FORMATS.has(format) && (drawn?.pages.length ?? 0) > 1 ? ` ${pageIndex + 1}` : '';
    return planFileName(`${plan.name} - ${plan.setups[setupId].name} - ${labelOf(kind)}${page}`).replace(
      PLAN_SUFFIX,
      `.${format}`,
    );
  };
  const blobOf = ({ bytes, type }: MadeFile) => new Blob([bytes], { type });
  const save = async (format: SheetFormat) => {
    const made = await write(format);
    if (made) files.download(blobOf(made), nameOf(format));
  };
  const share = canShareFiles()
    ? async () => {
        let file = shareable.current?.plan === plan && shareable.current.key === shareKey && shareable.current.file;
        if (!file) {
          const made = await write('pdf');
          if (!made) return;
          file = new File([blobOf(made)], nameOf('pdf'), { type: made.type });
          shareable.current = { plan, key: shareKey, file };
        }
        await navigator.share({ files: [file], title: wishes.title }).catch((problem: Error) => {
          // Making it took longer than a press counts: the next press finds it made.
          if (problem.name === 'NotAllowedError') setSentence('The sheet is made: press once more to share it.');
          // The user closed the system's sheet: nothing to say.
          else if (problem.name !== 'AbortError')
            setSentence('The system did not take the file: save it and send it by hand.');
        });
      }
    : null;
  return { drawn, pageIndex, setPageIndex, progress, sentence, save, share, isWriting };
}

function canShareFiles(): boolean {
  const probe = new File([''], 'sheet.pdf', { type: 'application/pdf' });
  return typeof navigator.canShare === 'function' && navigator.canShare({ files: [probe] });
}
