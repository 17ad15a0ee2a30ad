/** What things are called: kinds of bodies, pieces, gear. The one place, for page, sheets and reports. */
import { gearOf } from '../gear/catalogue.ts';
import type { BodyKind } from '../layout/body.ts';
import type { Plan } from '../plan/schema.ts';

const KIND_WORDS: Readonly<Record<BodyKind, string>> = {
  bassDrum: 'bass drum',
  snare: 'snare',
  tom: 'rack tom',
  floorTom: 'floor tom',
  cymbal: 'cymbal',
  pedal: 'pedal',
  shaft: 'drive shaft',
  throne: 'throne',
  stand: 'stand',
  leg: 'upright',
  foot: 'T-foot',
  bar: 'bar',
  arm: 'arm',
  link: 'link',
  spur: 'spur or drum leg',
  stageItem: 'stage item',
};

export const kindWord = (kind: BodyKind): string => KIND_WORDS[kind];

/** What a piece is called: its own name, its gear's, or its id. */
export function pieceName(plan: Plan, setupId: string, id: string): string {
  const piece = plan.setups[setupId]?.pieces[id];
  if (!piece) return id;
  if (piece.name) return piece.name;
  return (piece.kind === 'item' ? gearOf(plan.gear, piece.gear)?.name : 'Rack') ?? id;
}

/** What gear is called: its name, or its id where neither the plan nor the catalogue has it. */
export const gearName = (plan: Plan, id: string): string => gearOf(plan.gear, id)?.name ?? id;
