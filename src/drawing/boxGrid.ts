/**
 * Things by where their boxes are, in a grid of cells: who looks for what is near a place looks at what is near, not at all there is.
 *
 * Units: any one length. A cell about as wide as a common thing is quickest; no answer depends on it.
 */
import type { DrawnBox } from './displayList.ts';

interface Entry<T> {
  readonly item: T;
  readonly box: DrawnBox;
  /** The question that saw it last: a thing in several cells is given once. */
  seen: number;
}

/** More cells than this in one box are one row for things that lie nearly everywhere. */
const MOST_CELLS = 4096;
/** Cells far apart may share a key: the boxes decide. */
const KEY_STEP = 65_537;

export class BoxGrid<T> {
  private readonly cells = new Map<number, Entry<T>[]>();
  private readonly entries = new Map<T, Entry<T>>();
  private readonly everywhere: Entry<T>[] = [];
  private asked = 0;
  /** How many things were looked at: for the law that holds their growth. */
  looks = 0;

  constructor(private readonly cell: number) {}

  private at(v: number): number {
    return Math.floor(v / this.cell);
  }

  /** Calls with the key of each cell of a box; false, and none, where there are too many. */
  private eachCell({ minX, minY, maxX, maxY }: DrawnBox, see: (key: number) => void): boolean {
    const [i0, i1, j0, j1] = [this.at(minX), this.at(maxX), this.at(minY), this.at(maxY)];
    if (!((i1 - i0 + 1) * (j1 - j0 + 1) <= MOST_CELLS)) return false;
    for (let i = i0; i <= i1; i++) for (let j = j0; j <= j1; j++) see(i * KEY_STEP + j);
    return true;
  }

  add(item: T, box: DrawnBox): void {
    const entry = { item, box, seen: 0 };
    this.entries.set(item, entry);
    const found = this.eachCell(box, (key) => {
      const cell = this.cells.get(key);
      if (cell) cell.push(entry);
      else this.cells.set(key, [entry]);
    });
    if (!found) this.everywhere.push(entry);
  }

  remove(item: T): void {
    const entry = this.entries.get(item);
    if (!entry) return;
    this.entries.delete(item);
    const leave = (list: Entry<T>[]) => {
      const at = list.indexOf(entry);
      if (at >= 0) list.splice(at, 1);
    };
    if (!this.eachCell(entry.box, (key) => leave(this.cells.get(key) ?? []))) leave(this.everywhere);
  }

  /** Whether `holds` of anything whose box meets or touches this one. Begins no object: it is asked a million times a sheet. */
  some(box: DrawnBox, holds: (item: T) => boolean): boolean {
    this.asked++;
    if (this.everywhere.length > 0 && this.someIn(this.everywhere, box, holds)) return true;
    const [i0, i1, j0, j1] = [this.at(box.minX), this.at(box.maxX), this.at(box.minY), this.at(box.maxY)];
    if (!((i1 - i0 + 1) * (j1 - j0 + 1) <= MOST_CELLS)) return this.someIn([...this.entries.values()], box, holds);
    for (let i = i0; i <= i1; i++)
      for (let j = j0; j <= j1; j++) {
        const cell = this.cells.get(i * KEY_STEP + j);
        if (cell !== undefined && this.someIn(cell, box, holds)) return true;
      }
    return false;
  }

  private someIn(list: readonly Entry<T>[], box: DrawnBox, holds: (item: T) => boolean): boolean {
    for (const entry of list) {
      if (entry.seen === this.asked) continue;
      entry.seen = this.asked;
      this.looks++;
      const b = entry.box;
      if (b.minX > box.maxX || b.maxX < box.minX || b.minY > box.maxY || b.maxY < box.minY) continue;
      if (holds(entry.item)) return true;
    }
    return false;
  }
}
