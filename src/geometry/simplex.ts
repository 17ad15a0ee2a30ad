/**
 * The point nearest to the origin of a simplex of up to four points in space, step by step: what space.ts walks towards the
 * nearest points of two solids with.
 *
 * Each corner is a difference of a point of one solid and a point of the other; both are kept beside it, so that the nearest point's
 * weights give the two points that it is the difference of. Numbers in flat arrays: a step allocates nothing.
 */

/** Of four corners: x, y, z each. */
const SIZE = 12;
/** Nearer than this is on the origin: what rounding leaves of coordinates of some metres. */
export const ON_ORIGIN_MM = 1e-8;

export class Simplex {
  count = 0;
  readonly corners = new Float64Array(SIZE);
  readonly ofA = new Float64Array(SIZE);
  readonly ofB = new Float64Array(SIZE);
  private readonly weights = new Float64Array(4);
  /** The nearest point, and its distance from the origin squared. */
  x = 0;
  y = 0;
  z = 0;
  distanceSq = Number.POSITIVE_INFINITY;
  /** Weights of the nearest part that this step has found. */
  private readonly best = new Float64Array(4);
  private readonly volumes = new Float64Array(4);
  private found = false;

  /** Starts from the one corner that was written at place 0. */
  begin(): void {
    const { corners: c } = this;
    this.count = 1;
    this.weights[0] = 1;
    this.x = c[0];
    this.y = c[1];
    this.z = c[2];
    this.distanceSq = c[0] * c[0] + c[1] * c[1] + c[2] * c[2];
  }

  /**
   * Takes in the corner that was written at place `count`, goes to the nearest point, and drops the corners that it does not need.
   * False, and all is as before, when that comes no nearer. A nearer point needs the new corner, so only parts with it are looked at.
   * A distance of 0 says that the origin is within.
   */
  advance(): boolean {
    const last = this.count;
    this.found = false;
    this.offer(last, 1);
    for (let i = 0; i < last; i++) {
      this.offerEdge(last, i);
      for (let j = i + 1; j < last; j++) this.offerFacing(last, i, j);
    }
    if (last === 3 && this.holdsOrigin()) this.distanceSq = 0;
    else if (this.found) this.keepBest(last + 1);
    return this.found;
  }

  /** A coordinate of the point of `ofA` or `ofB` that belongs to the nearest point. */
  weighted(points: Float64Array, axis: number): number {
    let sum = 0;
    for (let i = 0; i < this.count; i++) sum += this.weights[i] * points[3 * i + axis];
    return sum;
  }

  private offer(i: number, wi: number, j = 0, wj = 0, k = 0, wk = 0): void {
    const { corners: c, best } = this;
    const x = wi * c[3 * i] + wj * c[3 * j] + wk * c[3 * k];
    const y = wi * c[3 * i + 1] + wj * c[3 * j + 1] + wk * c[3 * k + 1];
    const z = wi * c[3 * i + 2] + wj * c[3 * j + 2] + wk * c[3 * k + 2];
    const distanceSq = x * x + y * y + z * z;
    if (!(distanceSq < this.distanceSq)) return;
    this.found = true;
    this.x = x;
    this.y = y;
    this.z = z;
    this.distanceSq = distanceSq;
    best.fill(0);
    best[k] += wk;
    best[j] += wj;
    best[i] += wi;
  }

  private offerEdge(i: number, j: number): void {
    const { corners: c } = this;
    const [p, q] = [3 * i, 3 * j];
    const ex = c[q] - c[p];
    const ey = c[q + 1] - c[p + 1];
    const ez = c[q + 2] - c[p + 2];
    const t = -(c[p] * ex + c[p + 1] * ey + c[p + 2] * ez) / (ex * ex + ey * ey + ez * ez);
    if (t > 0 && t < 1) this.offer(i, 1 - t, j, t);
  }

  private edgeSq(i: number, j: number): number {
    const { corners: c } = this;
    const [p, q] = [3 * i, 3 * j];
    return (c[p] - c[q]) ** 2 + (c[p + 1] - c[q + 1]) ** 2 + (c[p + 2] - c[q + 2]) ** 2;
  }

  /** A face, seen from the corner that its longest edge lies opposite: of a needle's two long edges the difference is lost in rounding. */
  private offerFacing(i: number, j: number, k: number): void {
    const [ij, jk, ki] = [this.edgeSq(i, j), this.edgeSq(j, k), this.edgeSq(k, i)];
    if (jk >= ij && jk >= ki) this.offerFace(i, j, k);
    else if (ki >= ij) this.offerFace(j, k, i);
    else this.offerFace(k, i, j);
  }

  private offerFace(i: number, j: number, k: number): void {
    const { corners: c } = this;
    const [p, q, r] = [3 * i, 3 * j, 3 * k];
    const ax = c[q] - c[p];
    const ay = c[q + 1] - c[p + 1];
    const az = c[q + 2] - c[p + 2];
    const bx = c[r] - c[p];
    const by = c[r + 1] - c[p + 1];
    const bz = c[r + 2] - c[p + 2];
    const aa = ax * ax + ay * ay + az * az;
    const ab = ax * bx + ay * by + az * bz;
    const bb = bx * bx + by * by + bz * bz;
    const pa = -(c[p] * ax + c[p + 1] * ay + c[p + 2] * az);
    const pb = -(c[p] * bx + c[p + 1] * by + c[p + 2] * bz);
    const det = aa * bb - ab * ab;
    const s = (pa * bb - pb * ab) / det;
    const t = (pb * aa - pa * ab) / det;
    // Not a number for a face without area: then its edges have what there is.
    if (s > 0 && t > 0 && s + t < 1) this.offer(i, 1 - s - t, j, s, k, t);
  }

  /**
   * Whether the origin lies within all four corners. The volumes of the parts that it makes with each side are its weights; that they
   * lead back to the origin proves it, also where rounding turned the parts of a sliver.
   */
  private holdsOrigin(): boolean {
    const { corners: c, volumes: v } = this;
    let sum = 0;
    for (let i = 0; i < 4; i++) {
      const [p, q, r] = [3 * ((i + 1) & 3), 3 * ((i + 2) & 3), 3 * ((i + 3) & 3)];
      const volume =
        c[p] * (c[q + 1] * c[r + 2] - c[q + 2] * c[r + 1]) +
        c[p + 1] * (c[q + 2] * c[r] - c[q] * c[r + 2]) +
        c[p + 2] * (c[q] * c[r + 1] - c[q + 1] * c[r]);
      // Taken in turn, the four sides face out and in by turns.
      v[i] = i % 2 === 0 ? volume : -volume;
      sum += v[i];
    }
    for (let i = 0; i < 4; i++) if (!(v[i] / sum >= 0)) return false;
    for (let axis = 0; axis < 3; axis++) {
      const at = v[0] * c[axis] + v[1] * c[3 + axis] + v[2] * c[6 + axis] + v[3] * c[9 + axis];
      if (!(Math.abs(at / sum) <= ON_ORIGIN_MM)) return false;
    }
    return true;
  }

  /** Keeps the corners that the best part has, with their weights. */
  private keepBest(count: number): void {
    const { best, weights, corners, ofA, ofB } = this;
    let kept = 0;
    for (let i = 0; i < count; i++) {
      if (best[i] === 0) continue;
      weights[kept] = best[i];
      for (let axis = 0; axis < 3; axis++) {
        corners[3 * kept + axis] = corners[3 * i + axis];
        ofA[3 * kept + axis] = ofA[3 * i + axis];
        ofB[3 * kept + axis] = ofB[3 * i + axis];
      }
      kept++;
    }
    this.count = kept;
  }
}
