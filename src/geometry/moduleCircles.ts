/** How far a point lies from a deck's modules, and which of them can count near it: for overhang.ts and amid.ts. */
import type { Swept } from './shapes.ts';
import { boxOf } from './support.ts';
import { signedDistance } from './unionInside.ts';

/** Rounding of a distance. */
const SLACK_MM = 1e-9;

/** Counts of work, for the law that holds their growth. */
export interface Work {
  /** Distances of a point from a module or a side. */
  looks: number;
}

/** The modules of a deck with circles round them, so that a question looks closely at those alone that can count. */
export class ModuleCircles {
  private readonly circles: Float64Array;
  private readonly near: Swept[] = [];

  constructor(private readonly modules: readonly Swept[]) {
    this.circles = new Float64Array(modules.flatMap(circleRound));
  }

  private fromCircle(k: number, x: number, y: number): number {
    const { circles } = this;
    const [dx, dy] = [x - circles[3 * k], y - circles[3 * k + 1]];
    return Math.sqrt(dx * dx + dy * dy) - circles[3 * k + 2];
  }

  /** The distance of a point from the deck; 0 on it. */
  distance(x: number, y: number): number {
    const { modules } = this;
    let least = Number.POSITIVE_INFINITY;
    for (let k = 0; k < modules.length; k++) {
      if (this.fromCircle(k, x, y) >= least) continue;
      const d = signedDistance(modules[k], x, y);
      if (d <= 0) return 0;
      if (d < least) least = d;
    }
    return least;
  }

  /** The modules that may be the nearest to some point within `reach` of (x, y). Written over when asked again. */
  about(x: number, y: number, reach: number): readonly Swept[] {
    const { modules, near } = this;
    const most = this.distance(x, y) + 2 * reach + SLACK_MM;
    near.length = 0;
    for (let k = 0; k < modules.length; k++) {
      if (this.fromCircle(k, x, y) > most) continue;
      if (signedDistance(modules[k], x, y) <= most) near.push(modules[k]);
    }
    return near;
  }
}

/** Middle and radius of a circle round a body. */
export function circleRound(shape: Swept): [number, number, number] {
  const { minX, minY, maxX, maxY } = boxOf(shape);
  return [(minX + maxX) / 2, (minY + maxY) / 2, Math.hypot(maxX - minX, maxY - minY) / 2];
}
