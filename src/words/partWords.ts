/** What a part of a piece is called in a finding: `the boom of Crash 16`, `a T-foot of Left rack`; a piece's main body by its name. */
import type { PartOf } from '../checks/codes.ts';
import { gearOf } from '../gear/catalogue.ts';
import type { Plan } from '../plan/schema.ts';
import { pieceName } from './names.ts';

/** A boom, an L-arm's arm: by what reaches to the piece. */
function armWord(plan: Plan, setupId: string, id: string): string {
  const piece = plan.setups[setupId]?.pieces[id];
  const mount = piece?.kind === 'item' ? piece.mount : null;
  const gear = gearOf(plan.gear, mount?.platformArm ?? mount?.arm ?? '');
  return gear?.kind === 'boom' ? 'the boom' : 'the arm';
}

/** With its article, in lower case; null: the piece itself. */
function partWord(plan: Plan, setupId: string, id: string, { kind, part }: PartOf): string | null {
  switch (kind) {
    case 'arm':
      if (part === 'post') return 'the post';
      if (part.startsWith('tail')) return 'the tail of the boom';
      return part.startsWith('platform') ? 'the tom holder' : armWord(plan, setupId, id);
    case 'link':
      return 'the brace';
    case 'leg':
      return 'a leg';
    case 'foot':
      return 'a T-foot';
    case 'bar':
      return 'a bar';
    case 'shaft':
      return 'the drive shaft';
    case 'spur':
      return part.startsWith('tip') || part.startsWith('rod') ? 'a leg' : 'a spur';
    case 'stand':
    case 'throne':
      return part.startsWith('tip') || part.startsWith('leg') ? 'a leg' : null;
    default:
      return null;
  }
}

export function partName(plan: Plan, setupId: string, id: string, part: PartOf): string {
  const word = partWord(plan, setupId, id, part);
  const name = pieceName(plan, setupId, id);
  return word === null ? name : `${word} of ${name}`;
}

export const atSentenceStart = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
