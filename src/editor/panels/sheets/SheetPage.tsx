/**
 * A page of a sheet as a picture: its own SVG in a shadow tree, so that the page's styles do not reach it and its texts stay
 * texts, set in the typeface that is embedded in the PDF.
 */
import { useEffect, useRef } from 'react';
import type { PagePicture } from './order.ts';
import { SHEET_FAMILY } from './sheetMaker.ts';

export interface SheetPageProps {
  readonly page: PagePicture;
  readonly label: string;
}

/** Longer than this in widths: a plotter's strip, which is shown at its width and scrolls. */
const STRIP_RATIO = 3;

export function SheetPage({ page: { svg, widthMm, heightMm }, label }: SheetPageProps) {
  const host = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const element = host.current;
    if (!element) return;
    const root = element.shadowRoot ?? element.attachShadow({ mode: 'open' });
    const picture = new DOMParser().parseFromString(svg, 'image/svg+xml').documentElement;
    picture.setAttribute('width', '100%');
    picture.setAttribute('height', '100%');
    picture.setAttribute('font-family', `'${SHEET_FAMILY}', 'Open Sans', sans-serif`);
    root.replaceChildren(document.importNode(picture, true));
  }, [svg]);
  return (
    <div
      ref={host}
      role="img"
      aria-label={label}
      className="sheet-page"
      data-strip={Math.max(widthMm / heightMm, heightMm / widthMm) > STRIP_RATIO}
      style={{ aspectRatio: `${widthMm} / ${heightMm}`, ['--page-ratio' as string]: widthMm / heightMm }}
    />
  );
}
