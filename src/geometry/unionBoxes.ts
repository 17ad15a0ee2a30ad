/** Which boxes meet which: a sweep over x for few boxes, a grid for many. For union.ts. */

// Below this many boxes sorting and sweeping beats filling a grid.
const SWEEP_LIMIT = 400;

/** Pairs of boxes as they are found: two numbers each. */
class Found {
  count = 0;
  pairs = new Int32Array(1024);

  note(i: number, j: number): void {
    if (this.count * 2 === this.pairs.length) {
      const old = this.pairs;
      this.pairs = new Int32Array(old.length * 2);
      this.pairs.set(old);
    }
    this.pairs[this.count * 2] = i;
    this.pairs[this.count * 2 + 1] = j;
    this.count++;
  }
}

function sweep(boxes: Float64Array, n: number, slack: number, found: Found): void {
  const order = new Uint32Array(n);
  for (let i = 0; i < n; i++) order[i] = i;
  order.sort((a, b) => boxes[a * 4] - boxes[b * 4]);
  for (let k = 0; k < n; k++) {
    const i = order[k];
    const right = boxes[i * 4 + 2] + slack;
    const bottom = boxes[i * 4 + 1] - slack;
    const top = boxes[i * 4 + 3] + slack;
    for (let m = k + 1; m < n; m++) {
      const j = order[m];
      if (boxes[j * 4] > right) break;
      if (boxes[j * 4 + 1] <= top && boxes[j * 4 + 3] >= bottom) found.note(i, j);
    }
  }
}

function grid(boxes: Float64Array, n: number, slack: number, found: Found): void {
  let minX = Infinity;
  let minY = Infinity;
  let maxX = -Infinity;
  let maxY = -Infinity;
  let sides = 0;
  for (let i = 0; i < n; i++) {
    minX = Math.min(minX, boxes[i * 4]);
    minY = Math.min(minY, boxes[i * 4 + 1]);
    maxX = Math.max(maxX, boxes[i * 4 + 2]);
    maxY = Math.max(maxY, boxes[i * 4 + 3]);
    sides += boxes[i * 4 + 2] - boxes[i * 4] + boxes[i * 4 + 3] - boxes[i * 4 + 1];
  }
  // Cells about as large as a box and a half, but no more than four a box.
  const width = maxX - minX;
  const depth = maxY - minY;
  const cell = Math.max((sides / n) * 0.75, Math.sqrt((width * depth) / (4 * n)), (width + depth) / (4 * n)) + slack;
  const columns = Math.floor(width / cell) + 1;
  const rows = Math.floor(depth / cell) + 1;
  const column = (x: number) => Math.min(columns - 1, Math.max(0, Math.floor((x - minX) / cell)));
  const row = (y: number) => Math.min(rows - 1, Math.max(0, Math.floor((y - minY) / cell)));
  const cellStarts = new Int32Array(columns * rows + 1);
  const reach = new Int32Array(n * 4);
  for (let i = 0; i < n; i++) {
    reach[i * 4] = column(boxes[i * 4] - slack);
    reach[i * 4 + 1] = row(boxes[i * 4 + 1] - slack);
    reach[i * 4 + 2] = column(boxes[i * 4 + 2] + slack);
    reach[i * 4 + 3] = row(boxes[i * 4 + 3] + slack);
    for (let r = reach[i * 4 + 1]; r <= reach[i * 4 + 3]; r++)
      for (let c = reach[i * 4]; c <= reach[i * 4 + 2]; c++) cellStarts[r * columns + c + 1]++;
  }
  for (let k = 1; k < cellStarts.length; k++) cellStarts[k] += cellStarts[k - 1];
  const filled = cellStarts.slice(0, columns * rows);
  const members = new Int32Array(cellStarts[columns * rows]);
  for (let i = 0; i < n; i++)
    for (let r = reach[i * 4 + 1]; r <= reach[i * 4 + 3]; r++)
      for (let c = reach[i * 4]; c <= reach[i * 4 + 2]; c++) members[filled[r * columns + c]++] = i;
  for (let r = 0; r < rows; r++) {
    for (let c = 0; c < columns; c++) {
      const last = cellStarts[r * columns + c + 1];
      for (let k = cellStarts[r * columns + c]; k < last; k++) {
        const i = members[k];
        for (let m = k + 1; m < last; m++) {
          const j = members[m];
          // A pair that shares several cells is noted in the first of them only.
          if (Math.max(reach[i * 4], reach[j * 4]) !== c || Math.max(reach[i * 4 + 1], reach[j * 4 + 1]) !== r)
            continue;
          if (
            boxes[i * 4] <= boxes[j * 4 + 2] + slack &&
            boxes[j * 4] <= boxes[i * 4 + 2] + slack &&
            boxes[i * 4 + 1] <= boxes[j * 4 + 3] + slack &&
            boxes[j * 4 + 1] <= boxes[i * 4 + 3] + slack
          )
            found.note(i, j);
        }
      }
    }
  }
}

/**
 * For box i (minX, minY, maxX, maxY in a row) the boxes that meet or touch it within `slack` are
 * others[starts[i]] up to, not including, others[starts[i + 1]].
 */
export function meetingBoxes(
  boxes: Float64Array,
  n: number,
  slack: number,
): { starts: Int32Array; others: Int32Array } {
  const found = new Found();
  if (n <= SWEEP_LIMIT) sweep(boxes, n, slack, found);
  else grid(boxes, n, slack, found);
  const { count, pairs } = found;
  const starts = new Int32Array(n + 2);
  const others = new Int32Array(count * 2);
  for (let k = 0; k < count * 2; k++) starts[pairs[k] + 2]++;
  for (let i = 2; i <= n + 1; i++) starts[i] += starts[i - 1];
  for (let k = 0; k < count; k++) {
    const i = pairs[k * 2];
    const j = pairs[k * 2 + 1];
    others[starts[i + 1]++] = j;
    others[starts[j + 1]++] = i;
  }
  return { starts, others };
}
