/**
 * Text to plan: strict, because half a plan is worse than none; kind, because the sentence says where and what.
 *
 * The order of questions: is it small enough, is it JSON, is it a plan, is it of a version that can be read, is it within
 * the limits, is each field what it must be (schema.ts), does everything that is named exist (rules.ts)? The first
 * answer that is no is the one that is told. Nothing is repaired and nothing is left out; fields that this version does
 * not know are kept as they are.
 */
import { type Flaw, parseJson } from './json.ts';
import { type Document, migrate } from './migrate.ts';
import { firstOf, type Problem, placeInWords, problemAt, quoted } from './places.ts';
import { fileSizeProblem, planProblem, tooMany } from './rules.ts';
import { LIMITS, PLAN_FORMAT, PLAN_VERSION, type Plan, planSchema } from './schema.ts';
import { schemaProblem } from './schemaWords.ts';

export type ReadPlan = { readonly ok: true; readonly plan: Plan } | { readonly ok: false; readonly problem: Problem };

const refused = (problem: Problem): ReadPlan => ({ ok: false, problem });

/** Is it one of our plans, and of which version? */
function headProblem(value: unknown): Problem | null {
  const noPlan = (what: string): Problem => ({
    code: 'wrong_format',
    place: 'The file',
    sentence: `The file is ${what}`,
  });
  if (typeof value !== 'object' || value === null || Array.isArray(value))
    return noPlan('JSON, but not a plan: a plan is an object in braces.');
  const { format, version } = value as Record<string, unknown>;
  if (format !== PLAN_FORMAT) {
    const said = typeof format === 'string' ? quoted(format) : format === undefined ? 'missing' : 'not text';
    return noPlan(`not a plan of this program: its "format" is ${said}, where ${quoted(PLAN_FORMAT)} is needed.`);
  }
  const wrong = (code: string, reason: string) => problemAt(value, [], code, reason);
  if (typeof version !== 'number' || !Number.isInteger(version) || version < 1)
    return wrong(
      'wrong_version',
      `"version" must be a whole number from 1 on${version === undefined ? ', and is missing' : ''}.`,
    );
  if (version <= PLAN_VERSION) return null;
  return wrong(
    'newer_version',
    `it was written by a newer program (version ${version} of the format, and this program reads up to ${PLAN_VERSION}), so it is left unopened: update the program.`,
  );
}

const FLAW_WORDS = {
  doubled_key: (key: string) => `${quoted(key)} is written twice in the same object.`,
  refused_key: (key: string) => `${quoted(key)} cannot be the name of a field.`,
  not_finite: (number: string) => `${quoted(number)} is not a number that a plan can hold.`,
};

/** A doubled key is a doubled id where the object is a record by id. */
const RECORDS_BY_ID = new Set(['setups', 'pieces', 'risers', 'gear']);

function flawProblem(value: unknown, { code, path, written }: Flaw): Problem {
  if (code === 'doubled_key' && RECORDS_BY_ID.has(String(path[path.length - 1]))) {
    const reason = `the id ${quoted(written)} is written twice, and only one can be meant.`;
    return problemAt(value, [...path, written], 'doubled_id', reason);
  }
  const { place, field } = placeInWords(value, path);
  const about = code === 'not_finite' && field !== '' ? `${quoted(field)}: ` : '';
  return { code, place, sentence: `${place}: ${about}${FLAW_WORDS[code](written)}` };
}

/** Counts first: the schema would look at every entry before it spoke. */
function limitProblem(document: Document): Problem | null {
  const { setups, risers, gear } = document;
  return (
    tooMany(document, [], setups, 'setups', LIMITS.setups) ??
    tooMany(document, [], risers, 'risers', LIMITS.risers) ??
    tooMany(document, [], gear, 'gear entries of its own', LIMITS.gear) ??
    firstOf(typeof setups === 'object' ? Object.entries(setups ?? {}) : [], ([id, setup]) =>
      tooMany(document, ['setups', id], (setup as { pieces?: unknown } | null)?.pieces, 'pieces', LIMITS.pieces),
    )
  );
}

export function readPlan(text: string): ReadPlan {
  const size = fileSizeProblem(text, 'The file');
  if (size) return refused(size);

  const parsed = parseJson(text);
  if (!parsed.ok) {
    const place = `Line ${parsed.line}, column ${parsed.column}`;
    const reason = text.trim() === '' ? 'the file is empty.' : parsed.reason;
    return refused({ code: parsed.code, place, sentence: `${place}: ${reason}` });
  }
  const { value, flaw } = parsed;
  const head = headProblem(value);
  if (head) return refused(head);
  if (flaw) return refused(flawProblem(value, flaw));

  const document = value as Document;
  const current = migrate(document, document.version as number, PLAN_VERSION);
  const wrong = limitProblem(current) ?? schemaProblem(planSchema, current, current, []);
  if (wrong) return refused(wrong);
  // The schema changes nothing, so the document itself is the plan: unknown fields and all.
  const plan = current as unknown as Plan;
  const broken = planProblem(plan);
  return broken ? refused(broken) : { ok: true, plan };
}
