/**
 * A plan to begin with: a kit laid out for its drummer, on a base of a kind, with nothing in anybody's way.
 *
 * Everything is placed right-handed; a left-handed kit is its mirror image, as the command makes it. What comes out is asked by all
 * checks: where something is blocked, there is no plan, and the findings say why.
 *
 * Units: mm.
 */
import type { Finding } from '../../checks/finding.ts';
import { runChecks } from '../../checks/run.ts';
import { sitterOf } from '../../drummer/sizes.ts';
import { extent } from '../../geometry/support.ts';
import { layoutSetup } from '../../layout/layout.ts';
import { NEW_EDGE_MARGIN_MM, newRiser } from '../../plan/newPlan.ts';
import { runCommand } from '../../plan/run.ts';
import type { Drummer, Piece, Plan, Riser } from '../../plan/schema.ts';
import { putPlaying } from './playing.ts';
import { putRacks } from './racks.ts';
import { putStands } from './stands.ts';
import { SETUP_ID, Trial } from './trial.ts';
import { type StarterWish, typicalDrummer } from './wish.ts';

export type Starter =
  | { readonly ok: true; readonly plan: Plan /** Worst first. */; readonly findings: readonly Finding[] }
  /** `plan`: what it would be, with what is blocked among its findings; null: it was not tried. */
  | {
      readonly ok: false;
      readonly sentence: string;
      readonly plan: Plan | null;
      readonly findings: readonly Finding[];
    };

const NO_ROOM_FOR_TOM_STANDS =
  'Three toms beside the bass drum want three tom stands, and pedals and bass drum leave room for two: take a rack, or have the toms over the bass drum.';
const BLOCKED_SOMEWHERE =
  'This kit does not come out with everything clear: take fewer cymbals or drums, or another base.';

/** Risers often met, by their area; as many m wide as deep modules stand side by side. Common practice, no source. */
const RISERS_M = [
  [2, 2],
  [3, 2],
  [3, 3],
  [4, 3],
  [4, 4],
] as const;

function riserFor(widthMm: number, depthMm: number): Riser | null {
  const room = 2 * NEW_EDGE_MARGIN_MM;
  const size = RISERS_M.find(([wide, deep]) => wide * 1000 >= widthMm + room && deep * 1000 >= depthMm + room);
  return size ? newRiser(size[0], size[1]) : null;
}

/** The kit with the middle of what it takes of the floor at the origin, and on a riser if one is wanted. */
function placed(plan: Plan, wish: StarterWish): Plan {
  const standing = layoutSetup(plan, SETUP_ID).bodies.filter(({ touchesFloor }) => touchesFloor);
  const { minX, minY, maxX, maxY } = extent(standing.map(({ shape }) => shape))!;
  const [dx, dy] = [-Math.round((minX + maxX) / 2), -Math.round((minY + maxY) / 2)];
  const riser = wish.riser ? riserFor(maxX - minX, maxY - minY) : null;
  const setup = plan.setups[SETUP_ID];
  const moved = (piece: Piece): Piece => ({
    ...piece,
    place: { ...piece.place, xMm: piece.place.xMm + dx, yMm: piece.place.yMm + dy },
  });
  const pieces = Object.fromEntries(Object.entries(setup.pieces).map(([id, piece]) => [id, moved(piece)]));
  return {
    ...plan,
    setups: { [SETUP_ID]: { ...setup, riser: riser?.id ?? null, pieces } },
    risers: riser ? { [riser.id]: riser } : {},
  };
}

function mirrored(plan: Plan): Plan {
  const ran = runCommand(plan, { type: 'mirrorSetup', setup: SETUP_ID, axisXMm: 0 });
  if (!ran.ok) throw new Error(`The kit could not be mirrored: ${ran.refusal.code}.`);
  // The drummer of this plan leads with that hand anyway.
  const { otherHand: _, ...setup } = ran.plan.setups[SETUP_ID];
  return { ...ran.plan, setups: { [SETUP_ID]: setup } };
}

/** The same wish gives the same plan. `drummer`: whom it is for; how they lead is the wish's. */
export function starterPlan(
  wish: StarterWish,
  drummer: Drummer = typicalDrummer(wish.handed),
  { name = 'New plan', units = 'mm' }: { readonly name?: string; readonly units?: Plan['units'] } = {},
): Starter {
  if (wish.base === 'stands' && wish.toms === 'offset' && wish.up === 3)
    return { ok: false, sentence: NO_ROOM_FOR_TOM_STANDS, plan: null, findings: [] };
  const kit = new Trial({ name, units, drummer: { ...drummer, handed: 'right' } });
  const { sizes } = sitterOf(kit.plan, kit.setup);
  const playing = putPlaying(kit, wish, sizes);
  if (wish.base === 'stands') putStands(kit, wish, playing);
  else putRacks(kit, wish, playing);
  const sided = wish.handed === 'left' ? mirrored(kit.plan) : kit.plan;
  const plan = placed({ ...sided, drummers: { [drummer.id]: { ...drummer, handed: wish.handed } } }, wish);
  const { findings } = runChecks(plan, SETUP_ID, layoutSetup(plan, SETUP_ID));
  if (findings.some(({ state }) => state === 'blocked'))
    return { ok: false, sentence: BLOCKED_SOMEWHERE, plan, findings };
  return { ok: true, plan, findings };
}
