/**
 * The page's side of the sheets' worker. One worker at a time; orders are answered one after another, and an order that a newer one
 * has overtaken before it began is left out.
 */

import regularUrl from '@expo-google-fonts/open-sans/400Regular/OpenSans_400Regular.ttf?url';
import boldUrl from '@expo-google-fonts/open-sans/600SemiBold/OpenSans_600SemiBold.ttf?url';
import { proxy, wrap } from 'comlink';
import type { SheetFormat } from '../../../sheets/kinds.ts';
import { arrive } from '../../state/parts.ts';
import type { DrawnSheets, MadeFile, SheetOrder } from './order.ts';
import { type Progress, untilOver } from './progress.ts';
import type { SheetWorker } from './sheetWorker.ts';

/** The family that previews are set in: the very files that are embedded in the PDF. */
export const SHEET_FAMILY = 'Legroom sheet';

export interface SheetMaker {
  /** Null: a newer order came before this one began. Rejects: Error with a sentence. */
  draw(order: SheetOrder, progress: Progress): Promise<DrawnSheets | null>;
  /** `page`: which page, for formats that hold one. */
  write(order: SheetOrder, format: SheetFormat, page: number, progress: Progress): Promise<MadeFile>;
  close(): void;
}

async function loadSheetFaces(): Promise<void> {
  const faces = [
    new FontFace(SHEET_FAMILY, `url(${regularUrl})`, { weight: '400' }),
    new FontFace(SHEET_FAMILY, `url(${boldUrl})`, { weight: '600' }),
  ];
  for (const face of faces) document.fonts.add(await face.load());
}

let faces: Promise<void> | null = null;

export function startSheetMaker(): SheetMaker {
  const worker = new Worker(new URL('./sheetWorker.ts', import.meta.url), { type: 'module' });
  const remote = wrap<SheetWorker>(worker);
  // A worker that cannot be loaded answers nothing: every order that waits for it is told.
  const broken = arrive(new Promise<never>((_, reject) => worker.addEventListener('error', reject)));
  broken.catch(() => {});
  // Without them the preview is set in the page's own face: hardly another look.
  faces ??= loadSheetFaces().catch(() => {
    faces = null;
  });
  let newest = 0;
  let last: Promise<unknown> = faces;
  const inTurn = <T>(work: () => Promise<T>): Promise<T> => {
    const next = last.then(() => Promise.race([work(), broken]));
    last = next.catch(() => {});
    return next;
  };
  return {
    draw(order, progress) {
      const mine = ++newest;
      return inTurn(async () =>
        mine === newest ? untilOver(progress, (tell) => remote.draw(order, proxy(tell))) : null,
      );
    },
    write: (order, format, page, progress) =>
      inTurn(() => untilOver(progress, (tell) => remote.write(order, format, page, proxy(tell)))),
    close: () => worker.terminate(),
  };
}
