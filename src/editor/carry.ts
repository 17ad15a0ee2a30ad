/** Places of pieces after a motion: what is selected, and with "carry along" what hangs on it too. */
import { type Motion, movePoint } from '../geometry/frame.ts';
import { assemblyRoots } from '../layout/assemblies.ts';
import type { PlaceChange } from '../plan/commands/pieces.ts';
import type { Setup } from '../plan/schema.ts';
import { toDegrees } from '../units.ts';

/** The pieces that move: locked ones stay, and what hangs on a moved piece comes along only when asked. */
export function movingPieces(setup: Setup, selection: readonly string[], carryAlong: boolean): string[] {
  const wanted = new Set(selection.filter((id) => Object.hasOwn(setup.pieces, id)));
  if (carryAlong) for (const [id, root] of assemblyRoots(setup)) if (wanted.has(root)) wanted.add(id);
  return setup.order.filter((id) => wanted.has(id) && setup.pieces[id].locked !== true);
}

/** Thousandths of a millimetre and of a degree: finer than any tape, and short in the file. */
const tidy = (value: number): number => Math.round(value * 1000) / 1000;

export function toPlaces(
  setup: Setup,
  selection: readonly string[],
  carryAlong: boolean,
  motion: Motion,
): Record<string, PlaceChange> {
  const places: Record<string, PlaceChange> = {};
  for (const id of movingPieces(setup, selection, carryAlong)) {
    const { xMm, yMm, headingDeg } = setup.pieces[id].place;
    const [x, y] = movePoint(motion, xMm, yMm);
    places[id] = {
      xMm: tidy(x),
      yMm: tidy(y),
      ...(motion.angle === 0 ? {} : { headingDeg: tidy(headingDeg + toDegrees(motion.angle)) }),
    };
  }
  return places;
}

/** The motion that turns by `angle` about a point. */
export function turnAbout(x: number, y: number, angle: number): Motion {
  const [tx, ty] = movePoint({ angle, dx: 0, dy: 0 }, x, y);
  return { angle, dx: x - tx, dy: y - ty };
}
