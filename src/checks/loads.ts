/**
 * What travels together: the loads of a setup, the drummer's to set. A piece goes in the load that its `load` names, a rack too. Left out, a
 * kit travels apart: each rack's frame, each drum, pedal, stand and throne by itself, and the cymbals in one bag.
 *
 * Clamps, arms and links stay on what they are clamped to, whatever they hold travels in: they go with the rack's or stand's load.
 * What stands beside the kit is in none.
 *
 * Order: loads as their first piece stands in the setup; that piece's id is the load's.
 */
import { gearOf } from '../gear/catalogue.ts';
import { keeper } from '../keep.ts';
import { assemblyRoots } from '../layout/assemblies.ts';
import { type Body, isArmBody } from '../layout/body.ts';
import type { Piece, Plan, Setup } from '../plan/schema.ts';

export interface Load {
  /** Its first piece. */
  readonly id: string;
  /** As the plan names it; null: what travels so where nothing is said. */
  readonly name: string | null;
  readonly pieces: readonly string[];
}

export interface Loads {
  readonly list: readonly Load[];
  /** The load of a piece itself, and of the clamps, arms and links that hold it; null for what is not of the kit. */
  of(piece: string): string | null;
  hardwareOf(piece: string): string | null;
}

const keepLoads = keeper<Loads>();

export function loadsOf(plan: Plan, setup: Setup): Loads {
  const roots = assemblyRoots(setup);
  // Only how things are held, what they are and what they travel in decides: a drag changes none of it.
  const told: (string | undefined)[] = [];
  for (const id of setup.order) {
    const piece = setup.pieces[id];
    told.push(piece?.kind === 'item' ? piece.gear : id, piece?.load);
  }
  return keepLoads(setup.order, [roots, plan.gear, told], () => gathered(plan, setup, roots));
}

/** What it travels in, the same text for what travels together; null: in nothing. */
function keyOf(plan: Plan, piece: Piece | undefined): string | null {
  if (!piece) return null;
  const gear = piece.kind === 'item' ? gearOf(plan.gear, piece.gear) : undefined;
  if (gear?.kind === 'stageItem') return null;
  if (piece.load) return `load ${piece.load}`;
  return gear?.kind === 'cymbal' ? 'cymbals' : `piece ${piece.id}`;
}

function gathered(plan: Plan, setup: Setup, roots: ReadonlyMap<string, string>): Loads {
  const byKey = new Map<string, { id: string; name: string | null; pieces: string[] }>();
  const loadOf = new Map<string, string>();
  for (const id of setup.order) {
    const key = keyOf(plan, setup.pieces[id]);
    if (key === null) continue;
    const load = byKey.get(key) ?? { id, name: setup.pieces[id].load || null, pieces: [] };
    byKey.set(key, load);
    load.pieces.push(id);
    loadOf.set(id, load.id);
  }
  const of = (piece: string) => loadOf.get(piece) ?? null;
  return { list: [...byKey.values()], of, hardwareOf: (piece) => of(roots.get(piece) ?? piece) };
}

/** A layout's bodies by load. */
export function bodiesByLoad(loads: Loads, bodies: readonly Body[]): ReadonlyMap<string, readonly Body[]> {
  const found = new Map<string, Body[]>();
  for (const body of bodies) {
    const load = isArmBody(body) ? loads.hardwareOf(body.piece) : loads.of(body.piece);
    if (load === null) continue;
    const own = found.get(load);
    if (own) own.push(body);
    else found.set(load, [body]);
  }
  return found;
}
