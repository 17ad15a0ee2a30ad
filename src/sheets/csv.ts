/**
 * Comma-separated values as RFC 4180 has them, made so that a spreadsheet opens them with the right columns and characters.
 *
 * - Records end with CRLF, the last one too; the first record names the columns; every record has as many fields.
 * - A field with a comma, a quote, a line's end, or a blank at either end stands in quotes, its own quotes doubled (RFC 4180, 2.5 to 2.7).
 * - A byte order mark begins the file: without it common spreadsheets read UTF-8 as the machine's old code page, and Greek and
 *   Cyrillic names come out as nonsense. RFC 4180 says nothing of it; readers take it off when asked to.
 * - Numbers have a decimal point and no grouping, whatever the language of the machine.
 * - A text that begins with = + - @, a tab or a line's end would be run as a formula by a spreadsheet: an apostrophe is put
 *   before it, which spreadsheets know as "this is text" and a reader sees for what it is.
 */

/** null: an empty field. */
export type CsvValue = string | number | null;

export const BYTE_ORDER_MARK = '\uFEFF';
const LINE_END = '\r\n';
const FORMULA = /^[=+\-@\t\r\n]/;
const QUOTED = /[",\r\n]|^\s|\s$/;

function field(value: CsvValue): string {
  if (value === null) return '';
  if (typeof value === 'number') {
    if (!Number.isFinite(value)) throw new RangeError('A table holds finite numbers only.');
    // Not in powers of ten, which some spreadsheets take for text.
    return Math.abs(value) >= 1e-6 && Math.abs(value) < 1e15 ? String(value) : value.toFixed(6).replace(/\.?0+$/, '');
  }
  const text = FORMULA.test(value) ? `'${value}` : value;
  return QUOTED.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/**
 * A table as text.
 * Throws: RangeError on a record that has not as many fields as there are columns, and on a number that is not finite.
 */
export function toCsv(columns: readonly string[], records: readonly (readonly CsvValue[])[]): string {
  const lines = [columns, ...records].map((record: readonly CsvValue[]) => {
    if (record.length !== columns.length) throw new RangeError('Every record has as many fields as there are columns.');
    return record.map(field).join(',');
  });
  return BYTE_ORDER_MARK + lines.map((line) => line + LINE_END).join('');
}
