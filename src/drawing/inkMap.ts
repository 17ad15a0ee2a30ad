/**
 * How much is already drawn where: a grid of counts with sums over rectangles, so that a label can ask for a free place.
 *
 * Units: mm of the model; the grid's cell is half a mm of paper, larger where a drawing is far larger than any paper.
 */
import type { DrawnBox, Mark } from './displayList.ts';
import { stretchesOf } from './edges.ts';

const CELL_MM_OF_PAPER = 0.5;
/** As many as a paper of A0 has. */
const MOST_CELLS = 4e6;

export class InkMap {
  private readonly columns: number;
  private readonly rows: number;
  private readonly cell: number;
  private readonly count: Float64Array;
  private sums: Float64Array | null = null;

  constructor(
    private readonly box: DrawnBox,
    scale: number,
  ) {
    const [width, height] = [box.maxX - box.minX, box.maxY - box.minY];
    this.cell = Math.max(
      CELL_MM_OF_PAPER * scale,
      Math.sqrt((width * height) / MOST_CELLS),
      Math.max(width, height) / MOST_CELLS,
    );
    this.columns = Math.max(1, Math.ceil(width / this.cell));
    this.rows = Math.max(1, Math.ceil(height / this.cell));
    this.count = new Float64Array(this.columns * this.rows);
  }

  /** Adds a mark's line. Wide lines weigh twice; `factor` for lines that names should keep off more, or less. */
  add(mark: Mark, factor = 1): void {
    if (mark.line === null) return;
    const weight = factor * (mark.line.width === 'wide' ? 2 : 1);
    this.sums = null;
    for (const stretch of stretchesOf(mark)) {
      const steps = Math.max(1, Math.ceil(stretch.lengthMm / this.cell));
      for (let k = 0; k <= steps; k++) {
        const [x, y] = stretch.at(k / steps);
        const i = Math.floor((x - this.box.minX) / this.cell);
        const j = Math.floor((y - this.box.minY) / this.cell);
        if (i >= 0 && i < this.columns && j >= 0 && j < this.rows) this.count[j * this.columns + i] += weight;
      }
    }
  }

  /** Ink in the cell at a place. */
  at(x: number, y: number): number {
    const i = Math.floor((x - this.box.minX) / this.cell);
    const j = Math.floor((y - this.box.minY) / this.cell);
    return i >= 0 && i < this.columns && j >= 0 && j < this.rows ? this.count[j * this.columns + i] : 0;
  }

  /** Ink within a rectangle. */
  within(box: DrawnBox): number {
    const sums = this.prepared();
    const clampTo = (value: number, most: number) => Math.min(Math.max(value, 0), most);
    const i0 = clampTo(Math.floor((box.minX - this.box.minX) / this.cell), this.columns);
    const i1 = clampTo(Math.ceil((box.maxX - this.box.minX) / this.cell), this.columns);
    const j0 = clampTo(Math.floor((box.minY - this.box.minY) / this.cell), this.rows);
    const j1 = clampTo(Math.ceil((box.maxY - this.box.minY) / this.cell), this.rows);
    const w = this.columns + 1;
    return sums[j1 * w + i1] - sums[j0 * w + i1] - sums[j1 * w + i0] + sums[j0 * w + i0];
  }

  /** Sums from the lower left corner: one row and one column more than the grid. */
  private prepared(): Float64Array {
    if (this.sums) return this.sums;
    const w = this.columns + 1;
    const sums = new Float64Array(w * (this.rows + 1));
    for (let j = 0; j < this.rows; j++) {
      let row = 0;
      for (let i = 0; i < this.columns; i++) {
        row += this.count[j * this.columns + i];
        sums[(j + 1) * w + i + 1] = sums[j * w + i + 1] + row;
      }
    }
    this.sums = sums;
    return sums;
  }
}
