/**
 * The pose (turn and shift) of many shapes that leaves the most margin on a deck of any outline: L, T, U, with holes.
 *
 * Branch and bound over the turn and the two shifts. A cell of poses is bounded by straight bounds (poseBounds.ts), whose least is
 * highest at a point that a linear programme finds (poseProgramme.ts); that point is the cell's own candidate. The bounds' error falls with the
 * square of the cell, and shifts along straight sides have none, so that a ridge, where the kit may slide along an edge
 * at no cost, is settled in one piece. The cell that promises most is opened first, along the width that its promise hangs on.
 *
 * Units:  one length unit (mm); angles in radians. The turn lies within the turns asked for.
 * Sign:   margin as deckMargin(). Poses that leave some are looked for first; where there is none, the one that sticks out least.
 * Proven: no pose of all leaves more than margin + within. `within` is at most PROVEN_MM, unless the budget of cells runs out;
 *         then it says how far the proof got. The margin itself is what deckMargin() says at the pose.
 * Ties:   poses within PROVEN_MM of each other may count as equal; the shapes stay where they are if that is one of the best.
 * Inputs: at least one shape; turns that hold 0, within one whole turn. Throws: RangeError without shapes.
 */
import { deckMargin, type PreparedDeck } from './deck.ts';
import type { Motion } from './frame.ts';
import { ANY_TURN, type Pose, type Turns } from './pose.ts';
import { type Cell, KitOnDeck, type Near } from './poseBounds.ts';
import { Bounds, highest } from './poseProgramme.ts';
import { moved, type Swept } from './shapes.ts';

/** A pose, and the most that any other could leave above its margin. */
export interface ProvenPose extends Pose {
  readonly within: number;
}

/** mm: finer than any tape. */
export const PROVEN_MM = 0.01;

/** And where nothing fits: what sticks out is dearer to measure, and its bounds are weaker. */
const OFF_BUDGET = 800;
/** Cells opened before a search stops with what it has, and after how many it tells how far it is. */
const POSE_BUDGET = 10000;
const TELL_EVERY = 250;

/** Widest stretch of turns to begin with: narrow enough that a wave is nearly straight. */
const SLICE_RAD = Math.PI / 16;

/** Steps of the last climb, and the shift below which it ends. */
const CLIMB_STEPS = 60;
const CLIMB_FROM_MM = 500;
const CLIMB_MM = 1e-7;

interface Open {
  readonly cell: Cell;
  readonly near: Near;
  readonly most: number;
  readonly serial: number;
  /** Which width to halve: turn, wide, deep. */
  readonly halve: 0 | 1 | 2;
}

const before = (a: Open, b: Open): boolean => a.most > b.most || (a.most === b.most && a.serial < b.serial);

/** The open cells, the most promising on top. */
class Heap {
  private readonly items: Open[] = [];

  get top(): Open | undefined {
    return this.items[0];
  }

  push(item: Open): void {
    const { items } = this;
    let at = items.push(item) - 1;
    while (at > 0) {
      const up = (at - 1) >> 1;
      if (!before(item, items[up])) break;
      items[at] = items[up];
      at = up;
    }
    items[at] = item;
  }

  pop(): Open | undefined {
    const { items } = this;
    const top = items[0];
    const last = items.pop();
    if (items.length === 0 || last === undefined) return top;
    let at = 0;
    for (;;) {
      let down = 2 * at + 1;
      if (down >= items.length) break;
      if (down + 1 < items.length && before(items[down + 1], items[down])) down++;
      if (!before(items[down], last)) break;
      items[at] = items[down];
      at = down;
    }
    items[at] = last;
    return top;
  }
}

class PoseSearch {
  private open = new Heap();
  private readonly bounds = new Bounds();
  private serial = 0;
  private best: Motion = { angle: 0, dx: 0, dy: 0 };
  /** The best margin so far; 0 until some pose leaves any. */
  private level = 0;
  /** Nothing fits: what sticks out least is looked for. */
  private off = false;
  private readonly kit: KitOnDeck;

  constructor(
    private readonly deck: PreparedDeck,
    private readonly shapes: readonly Swept[],
  ) {
    if (shapes.length === 0) throw new RangeError('A pose needs at least one shape to place.');
    this.kit = new KitOnDeck(deck, shapes);
    this.offer(0, this.kit.pivotX, this.kit.pivotY, this.kit.all);
  }

  /** Keeps a pose if it leaves more than the best so far. What is `near` is asked first: it is quick, and mostly says no. */
  private offer(angle: number, x: number, y: number, near: Near): boolean {
    const { kit, level } = this;
    const spot = { angle, x, y, turn: 0, wide: 0, deep: 0 };
    if (
      this.off
        ? !kit.boundOff(spot, level, this.bounds)
        : !kit.bound(spot, near, level, level, Number.NEGATIVE_INFINITY, this.bounds)
    )
      return false;
    const c = Math.cos(angle);
    const s = Math.sin(angle);
    const motion = { angle, dx: x - (c * kit.pivotX - s * kit.pivotY), dy: y - (s * kit.pivotX + c * kit.pivotY) };
    let least = Number.POSITIVE_INFINITY;
    for (const shape of this.shapes) {
      least = Math.min(least, deckMargin(this.deck, moved(shape, motion)));
      if (least <= level) return false;
    }
    this.level = least;
    this.best = motion;
    return true;
  }

  /** Where a point of a cell's box is. */
  private placed(cell: Cell, at: readonly [number, number, number]): [number, number, number] {
    return [cell.angle + at[0] * cell.turn, cell.x + at[1] * cell.wide, cell.y + at[2] * cell.deep];
  }

  /** Bounds a cell, tries its candidate, and keeps it if it may hold something better. */
  private add(cell: Cell, near: Near, most: number): void {
    const { kit, bounds } = this;
    const enough = this.level + PROVEN_MM;
    const kept = this.off
      ? kit.boundOff(cell, enough, bounds) && near
      : kit.bound(cell, near, this.level, enough, most, bounds);
    if (!kept || bounds.count === 0) return;
    const { value, at, blame } = highest(bounds);
    const less = Math.min(most, value);
    if (less <= enough) return;
    const shift = cell.wide >= cell.deep ? 1 : 2;
    let own: readonly number[] = [blame[0], blame[1], blame[2]].map((value, j) => value + (j === shift ? blame[3] : 0));
    // Where no width of these bounds makes up what the cell promises, bounds are missing: a side is across only in a smaller cell.
    if (own[0] + own[1] + own[2] < Math.max(less - enough, PROVEN_MM / 2))
      own = [cell.turn * kit.reach, cell.wide, cell.deep];
    let halve: 0 | 1 | 2 = 0;
    for (const j of [1, 2] as const) if (own[j] > own[halve]) halve = j;
    this.offer(...this.placed(cell, at), kept);
    this.open.push({ cell, near: kept, most: less, serial: this.serial++, halve });
  }

  /** Opens all turns allowed, with the pivot anywhere in the deck's box: it lies in the shapes' hull, so on the deck's. */
  private begin({ least, most }: Turns): void {
    let [minX, minY, maxX, maxY] = [Infinity, Infinity, -Infinity, -Infinity];
    const { sides } = this.deck;
    for (let k = 0; k < sides.length; k += 4) {
      [minX, maxX] = [Math.min(minX, sides[k]), Math.max(maxX, sides[k])];
      [minY, maxY] = [Math.min(minY, sides[k + 1]), Math.max(maxY, sides[k + 1])];
    }
    // Where nothing fits the pivot is no farther off than what sticks out.
    const over = this.off ? -this.level : 0;
    const box = {
      ...{ x: (minX + maxX) / 2, y: (minY + maxY) / 2 },
      ...{ wide: (maxX - minX) / 2 + over, deep: (maxY - minY) / 2 + over },
    };
    this.open = new Heap();
    // Slices about the shapes' own turn and outwards from it.
    const count = Math.round(Math.max(-least, most) / SLICE_RAD);
    for (let k = 0; k <= 2 * count; k++) {
      const middle = (k % 2 ? -(k + 1) / 2 : k / 2) * SLICE_RAD;
      const [from, to] = [Math.max(least, middle - SLICE_RAD / 2), Math.min(most, middle + SLICE_RAD / 2)];
      if (to > from || k === 0)
        this.add({ angle: (from + to) / 2, ...box, turn: (to - from) / 2 }, this.kit.all, Infinity);
    }
  }

  /** From now on looks for what sticks out least, from where the shapes stand on. */
  lookOff(): void {
    this.off = true;
    this.best = { angle: 0, dx: 0, dy: 0 };
    this.level = Math.min(...this.shapes.map((shape) => deckMargin(this.deck, shape)));
  }

  /** Searches on from the best so far. */
  run(turns: Turns, budget: number, tell: (opened: number, sofar: ProvenPose | null) => void): ProvenPose | null {
    if (this.level > 0 || this.off) this.climb(turns, CLIMB_FROM_MM);
    this.begin(turns);
    let most = Number.NEGATIVE_INFINITY;
    for (let opened = 0; ; opened++) {
      const next = this.open.pop();
      if (!next || next.most <= this.level + PROVEN_MM) break;
      if (opened === budget) {
        most = next.most;
        break;
      }
      if (opened % TELL_EVERY === TELL_EVERY - 1) tell(opened, this.result(next.most));
      this.split(next);
    }
    most = Math.max(most, this.level + PROVEN_MM);
    if (this.level > 0 || this.off) this.climb(turns, 1);
    return this.result(most);
  }

  private split({ cell, near, most, halve }: Open): void {
    const { angle, x, y, turn, wide, deep } = cell;
    for (const way of [-1, 1]) {
      if (halve === 0) this.add({ ...cell, turn: turn / 2, angle: angle + (way * turn) / 2 }, near, most);
      else if (halve === 1) this.add({ ...cell, wide: wide / 2, x: x + (way * wide) / 2 }, near, most);
      else this.add({ ...cell, deep: deep / 2, y: y + (way * deep) / 2 }, near, most);
    }
  }

  /** From the best so far up to the top nearby. */
  private climb({ least, most }: Turns, size: number): void {
    const { kit, bounds } = this;
    for (let step = 0; step < CLIMB_STEPS && size > CLIMB_MM; step++) {
      const { angle, dx, dy } = this.best;
      const c = Math.cos(angle);
      const s = Math.sin(angle);
      const turn = size / Math.max(kit.reach, 1);
      const [from, to] = [Math.max(least, angle - turn), Math.min(most, angle + turn)];
      const cell = {
        angle: (from + to) / 2,
        x: dx + c * kit.pivotX - s * kit.pivotY,
        y: dy + s * kit.pivotX + c * kit.pivotY,
        turn: (to - from) / 2,
        wide: size,
        deep: size,
      };
      if (this.off) kit.boundOff(cell, Number.NEGATIVE_INFINITY, bounds);
      else kit.bound(cell, kit.all, this.level, Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY, bounds);
      const { at } = highest(bounds);
      if (!this.offer(...this.placed(cell, at), kit.all)) size /= 4;
    }
  }

  private result(most: number): ProvenPose | null {
    if (this.level <= PROVEN_MM && !this.off) return null;
    return {
      ...this.best,
      margin: this.level,
      within: Math.ceil(Math.max(0, most - this.level) * 1e6 - 1e-3) / 1e6,
    };
  }
}

/** The best pose, and the best of those that only shift. */
export interface ProvenPoses {
  readonly pose: ProvenPose | null;
  readonly shift: ProvenPose | null;
}

interface PoseOptions {
  /** Cells opened at most, by each of the two searches. */
  readonly budget?: number;
  /** Told now and then: what part of the budget is gone, and the best so far. */
  readonly watch?: (part: number, sofar: ProvenPoses) => void;
}

/** Both at once: the pose turns only where that leaves more than the best shift. */
export function bestPosesUnion(
  deck: PreparedDeck,
  shapes: readonly Swept[],
  turns: Turns = ANY_TURN,
  { budget = POSE_BUDGET, watch }: PoseOptions = {},
): ProvenPoses {
  const search = new PoseSearch(deck, shapes);
  const onlyShift = { least: 0, most: 0 };
  const half = 0.5 / budget;
  let shift = search.run(onlyShift, budget, (opened, sofar) => watch?.(opened * half, { shift: sofar, pose: null }));
  if (shift === null) {
    // Nothing fits without a turn. What fits with one is looked for first, by the search that proves most.
    const fits = new PoseSearch(deck, shapes).run(turns, budget, (opened) =>
      watch?.(opened * half, { shift: null, pose: null }),
    );
    search.lookOff();
    const few = Math.min(budget, OFF_BUDGET);
    const part = (opened: number) => 0.5 + (0.25 * opened) / few;
    shift = search.run(onlyShift, few, (opened, sofar) => watch?.(part(opened), { shift: sofar, pose: fits }));
    const pose =
      fits ?? search.run(turns, few, (opened, sofar) => watch?.(0.25 + part(opened), { shift, pose: sofar }));
    return { shift, pose };
  }
  const pose = search.run(turns, budget, (opened, sofar) => watch?.(0.5 + opened * half, { shift, pose: sofar }));
  return { shift, pose };
}
