/** Opens the plan in a link, as a plan of its own beside those that this browser keeps. */
import { readPlan } from '../../../plan/read.ts';
import { readLink } from '../../storage/planLink.ts';
import type { Session } from '../../storage/session.ts';

/** Null when it is open, else the sentence why not. */
export async function openLink(session: Session, fragment: string): Promise<string | null> {
  const link = await readLink(fragment);
  if (!link.ok) return link.sentence;
  const read = readPlan(link.text);
  if (!read.ok) return read.problem.sentence;
  await session.begin(read.plan, undefined, true);
  return null;
}
