/**
 * The body of a DXF file round its entities: header, tables, blocks, objects. Format AC1021 (2007), whose text is UTF-8.
 *
 * Handles count up from 1 in the order of writing, so they are unique and the same for the same drawing. Layer names come
 * from one table of ours and need no cleaning.
 * Source: ezdxf's documentation, DXF File Structure and DXF Units; which tables a reader insists on from memory, held by
 *         the readers in tests/outside/dxf.test.ts.
 */
import { DASHES, type DrawnBox, type LineKind } from '../drawing/displayList.ts';

export interface DxfLayer {
  readonly name: string;
  readonly colour: number;
  readonly line: LineKind;
}

const VERSION = 'AC1021';
const MILLIMETRES = '4';
const METRIC = '1';

const LINE_NAMES: Readonly<Record<LineKind, { readonly name: string; readonly words: string }>> = {
  continuous: { name: 'CONTINUOUS', words: 'Continuous' },
  dashed: { name: 'DASHED', words: 'Dashed: hidden edges' },
  longDashDot: { name: 'LONG-DASH-DOT', words: 'Long dash, dot: centre lines' },
  longDashDoubleDot: { name: 'LONG-DASH-DOUBLE-DOT', words: 'Long dash, two dots: neighbouring and extreme positions' },
};

/** Ten decimals at most. Throws: RangeError for what is not finite. */
export function dxfNumber(value: number): string {
  if (!Number.isFinite(value)) throw new RangeError('A length in this drawing is not a finite number.');
  const short = value.toFixed(10).replace(/\.?0+$/, '');
  return short === '-0' ? '0' : short;
}

export class DxfFile {
  private readonly lines: string[] = [];
  private handles = 0;
  private readonly modelSpace: string;

  /** dashMm: the width of a line in mm of the drawing, in which dashes are measured. */
  constructor(
    layers: readonly DxfLayer[],
    dashMm: number,
    private readonly box: DrawnBox,
    private readonly comment: string,
  ) {
    const paperSpace = this.handle();
    this.modelSpace = this.handle();
    this.add(0, 'SECTION', 2, 'CLASSES', 0, 'ENDSEC', 0, 'SECTION', 2, 'TABLES');
    this.viewTable();
    this.lineTable(dashMm);
    this.layerTable(layers);
    this.table('STYLE', ['STANDARD'], (name) =>
      this.add(100, 'AcDbTextStyleTableRecord', 2, name, 70, '0', 40, '0', 41, '1', 50, '0', 71, '0', 42, '2.5')
        // A reader without this face takes its own.
        .add(3, 'OpenSans-Regular.ttf', 4, ''),
    );
    for (const empty of ['VIEW', 'UCS']) this.table(empty, [], () => {});
    this.table('APPID', ['ACAD'], (name) => this.add(100, 'AcDbRegAppTableRecord', 2, name, 70, '0'));
    this.table('DIMSTYLE', ['STANDARD'], (name) => this.add(100, 'AcDbDimStyleTableRecord', 2, name, 70, '0'));
    const spaces: [string, string][] = [
      ['*Model_Space', this.modelSpace],
      ['*Paper_Space', paperSpace],
    ];
    this.table(
      'BLOCK_RECORD',
      spaces.map(([name]) => name),
      (name) => this.add(100, 'AcDbBlockTableRecord', 2, name),
      spaces.map(([, handle]) => handle),
    );
    this.add(0, 'ENDSEC', 0, 'SECTION', 2, 'BLOCKS');
    for (const [name, owner] of spaces) this.block(name, owner);
    this.add(0, 'ENDSEC', 0, 'SECTION', 2, 'ENTITIES');
  }

  /** Pairs of a group code and its value. */
  add(...pairs: (number | string)[]): this {
    for (const part of pairs) this.lines.push(String(part));
    return this;
  }

  /** Begins an entity in the model's space; `weight` in hundredths of a millimetre. */
  entity(type: string, subclass: string, layer: string, line: LineKind | null, weight: number | null): void {
    this.add(0, type, 5, this.handle(), 330, this.modelSpace, 100, 'AcDbEntity', 8, layer);
    if (line !== null) this.add(6, LINE_NAMES[line].name);
    if (weight !== null) this.add(370, weight);
    this.add(100, subclass);
  }

  /** Ends the file: called once. */
  text(): string {
    this.add(0, 'ENDSEC', 0, 'SECTION', 2, 'OBJECTS');
    const [root, groups] = [this.handle(), this.handle()];
    this.add(0, 'DICTIONARY', 5, root, 330, '0', 100, 'AcDbDictionary', 281, '1', 3, 'ACAD_GROUP', 350, groups);
    this.add(0, 'DICTIONARY', 5, groups, 330, root, 100, 'AcDbDictionary', 281, '1');
    this.add(0, 'ENDSEC', 0, 'EOF');
    // The header tells the next free handle, so it comes last and stands first.
    return `${[...this.head(), ...this.lines].join('\n')}\n`;
  }

  private head(): string[] {
    const { minX, minY, maxX, maxY } = this.box;
    const point = (x: number, y: number) => [10, dxfNumber(x), 20, dxfNumber(y), 30, '0'];
    return [
      ...[999, this.comment, 0, 'SECTION', 2, 'HEADER', 9, '$ACADVER', 1, VERSION],
      ...[9, '$HANDSEED', 5, (this.handles + 1).toString(16).toUpperCase()],
      ...[9, '$INSUNITS', 70, MILLIMETRES, 9, '$MEASUREMENT', 70, METRIC, 9, '$LUNITS', 70, '2'],
      ...[9, '$EXTMIN', ...point(minX, minY), 9, '$EXTMAX', ...point(maxX, maxY)],
      ...[0, 'ENDSEC'],
    ].map(String);
  }

  private handle(): string {
    this.handles += 1;
    return this.handles.toString(16).toUpperCase();
  }

  private table(
    name: string,
    records: readonly string[],
    write: (record: string) => void,
    handles: readonly string[] = records.map(() => this.handle()),
  ): void {
    const own = this.handle();
    this.add(0, 'TABLE', 2, name, 5, own, 330, '0', 100, 'AcDbSymbolTable', 70, records.length);
    if (name === 'DIMSTYLE') this.add(100, 'AcDbDimStyleTable', 71, '0');
    records.forEach((record, k) => {
      // Dimension styles alone keep their handle under 105.
      this.add(0, name, name === 'DIMSTYLE' ? 105 : 5, handles[k], 330, own, 100, 'AcDbSymbolTableRecord');
      write(record);
    });
    this.add(0, 'ENDTAB');
  }

  /** The one view, which shows all of the drawing. */
  private viewTable(): void {
    const { minX, minY, maxX, maxY } = this.box;
    const height = Math.max(maxY - minY, maxX - minX, 1) * 1.05;
    this.table('VPORT', ['*Active'], (name) =>
      this.add(100, 'AcDbViewportTableRecord', 2, name, 70, '0', 10, '0', 20, '0', 11, '1', 21, '1')
        .add(12, dxfNumber((minX + maxX) / 2), 22, dxfNumber((minY + maxY) / 2))
        .add(13, '0', 23, '0', 14, '10', 24, '10', 15, '10', 25, '10')
        .add(16, '0', 26, '0', 36, '1', 17, '0', 27, '0', 37, '0')
        .add(40, dxfNumber(height), 41, '1', 42, '50', 43, '0', 44, '0', 50, '0', 51, '0'),
    );
  }

  private lineTable(dashMm: number): void {
    const kinds = Object.keys(LINE_NAMES) as LineKind[];
    const rows = new Map<string, { words: string; dashes: readonly number[] }>([
      ['ByBlock', { words: '', dashes: [] }],
      ['ByLayer', { words: '', dashes: [] }],
      ...kinds.map((kind) => [LINE_NAMES[kind].name, { words: LINE_NAMES[kind].words, dashes: DASHES[kind] }] as const),
    ]);
    this.table('LTYPE', [...rows.keys()], (name) => {
      const { words, dashes } = rows.get(name)!;
      const total = dashes.reduce((sum, part) => sum + part, 0) * dashMm;
      this.add(100, 'AcDbLinetypeTableRecord', 2, name, 70, '0', 3, words, 72, '65', 73, dashes.length);
      this.add(40, dxfNumber(total));
      // Dashes count above nought, gaps below.
      dashes.forEach((part, k) => {
        this.add(49, dxfNumber((k % 2 === 0 ? part : -part) * dashMm), 74, '0');
      });
    });
  }

  private layerTable(layers: readonly DxfLayer[]): void {
    const rows = new Map(
      [{ name: '0', colour: 7, line: 'continuous' } as DxfLayer, ...layers].map((row) => [row.name, row]),
    );
    this.table('LAYER', [...rows.keys()], (name) => {
      const { colour, line } = rows.get(name)!;
      this.add(100, 'AcDbLayerTableRecord', 2, name, 70, '0', 62, colour, 6, LINE_NAMES[line].name);
    });
  }

  private block(name: string, owner: string): void {
    const entity = (type: string, subclass: string) =>
      this.add(0, type, 5, this.handle(), 330, owner, 100, 'AcDbEntity', 8, '0', 100, subclass);
    entity('BLOCK', 'AcDbBlockBegin').add(2, name, 70, '0', 10, '0', 20, '0', 30, '0', 3, name, 1, '');
    entity('ENDBLK', 'AcDbBlockEnd');
  }
}
