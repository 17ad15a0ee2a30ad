/** Commands and things that the stage's lists begin with: a mix for each wedge, a new cable run. Pure. */
import { stageItems } from '../../../lists/stageItems.ts';
import type { SingleCommand } from '../../../plan/commands/index.ts';
import type { Cable, Item, Mix, Plan, Setup } from '../../../plan/schema.ts';
import { nextId } from './listEdits.ts';

/** People this near a wedge are those it is for. mm. */
const AT_WEDGE_MM = 2000;

/** A mix for each wedge that has none, named after who stands before it; the wedges are given theirs. */
export function mixPerWedge(plan: Plan, setup: Setup): SingleCommand[] {
  const mixes: Mix[] = [...(setup.mixes ?? [])];
  const people = stageItems(plan, setup, 'person');
  const set: SingleCommand[] = [];
  for (const wedge of stageItems(plan, setup, 'wedge')) {
    if (wedge.mix !== undefined && mixes.some(({ id }) => id === wedge.mix)) continue;
    const far = ({ place }: Item) => Math.hypot(place.xMm - wedge.place.xMm, place.yMm - wedge.place.yMm);
    const [nearest] = people.filter((one) => far(one) <= AT_WEDGE_MM).sort((a, b) => far(a) - far(b));
    const mix: Mix = { id: nextId('mix', mixes), name: nearest?.name || wedge.name, by: 'wedge' };
    mixes.push(mix);
    set.push({ type: 'setPiece', setup: setup.id, piece: wedge.id, set: { mix: mix.id } });
  }
  return set.length === 0 ? [] : [{ type: 'setLists', setup: setup.id, set: { mixes } }, ...set];
}

/** A run from the first piece to 2 m downstage of it, to begin with. */
export function newCable(setup: Setup): Cable {
  const first = setup.pieces[setup.order[0]]?.place ?? { xMm: 0, yMm: 0 };
  const { xMm, yMm } = first;
  return {
    id: nextId('cable', setup.cables ?? []),
    note: 'Cable run',
    points: [
      { xMm, yMm },
      { xMm, yMm: yMm - 2000 },
    ],
  };
}
