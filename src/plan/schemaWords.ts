/** What the schema finds wrong, as a sentence with its place. */
import type * as z from 'zod/mini';
import { alternatives, type Path, type Problem, placeInWords, quoted, valueAt } from './places.ts';

type Issue = z.core.$ZodIssue;

const TYPE_WORDS: Readonly<Record<string, string>> = {
  string: 'text',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
  object: 'an object in braces',
  record: 'an object in braces',
  array: 'a list in brackets',
  tuple: 'a list in brackets',
  null: 'null',
};

/** A value as it may stand in a sentence. */
function valueWords(value: unknown): string {
  if (value === null) return 'null';
  if (Array.isArray(value)) return 'a list';
  if (typeof value === 'object') return 'an object';
  if (typeof value === 'string') return `the text ${quoted(value)}`;
  return String(value);
}

function boundWords(issue: Extract<Issue, { code: 'too_big' | 'too_small' }>, field: string, value: unknown): string {
  const big = issue.code === 'too_big';
  const bound = big ? issue.maximum : issue.minimum;
  if (issue.origin === 'string') {
    if (!big && Number(bound) === 1) return `${field} is empty.`;
    return `${field} has ${String(value).length} characters, and the ${big ? 'most' : 'least'} is ${bound}.`;
  }
  if (issue.origin === 'array') {
    const count = Array.isArray(value) ? value.length : 0;
    return `${field} has ${count} entries, and the ${big ? 'most' : 'least'} is ${bound}.`;
  }
  const limit = big ? (issue.inclusive ? 'at most' : 'less than') : issue.inclusive ? 'at least' : 'more than';
  return `${field} is ${String(value)}, and must be ${limit} ${bound}.`;
}

/** Code and words for one issue. `values`: what a choice may be, where the schema keeps it to itself. */
function issueWords(issue: Issue, field: string, value: unknown): { code: string; reason: string } {
  switch (issue.code) {
    case 'invalid_type':
      if (value === undefined) return { code: 'missing_field', reason: `${field} is missing.` };
      if (issue.expected === 'number' && typeof value === 'number')
        return { code: 'not_finite', reason: `${field} must be a finite number, not ${value}.` };
      return {
        code: 'wrong_type',
        reason: `${field} must be ${TYPE_WORDS[issue.expected] ?? issue.expected}, not ${valueWords(value)}.`,
      };
    case 'too_big':
    case 'too_small':
      return { code: 'out_of_range', reason: boundWords(issue, field, value) };
    case 'invalid_value':
      if (value === undefined) return { code: 'missing_field', reason: `${field} is missing.` };
      return {
        code: 'wrong_value',
        reason: `${field} must be ${alternatives(issue.values.map((each) => (typeof each === 'string' ? quoted(each) : String(each))))}, not ${valueWords(value)}.`,
      };
    case 'invalid_union':
      if (value === undefined) return { code: 'missing_field', reason: `${field} is missing.` };
      return { code: 'wrong_value', reason: `${field} cannot be ${valueWords(value)}.` };
    case 'invalid_key':
    case 'invalid_format':
      return {
        code: 'bad_id',
        reason: `${field} is no usable id: 1 to 80 characters, and not a word that JavaScript keeps for itself.`,
      };
    default:
      return { code: 'wrong_value', reason: `${field}: ${issue.message}.` };
  }
}

/**
 * The first thing that `schema` finds wrong with `value`, or null.
 * `root` and `at`: the document for names, and where in it the value stands.
 */
export function schemaProblem(schema: z.ZodMiniType, value: unknown, root: unknown, at: Path): Problem | null {
  const parsed = schema.safeParse(value);
  if (parsed.success) return null;
  const issue = parsed.error.issues[0];
  const path = [...at, ...(issue.path as (string | number)[])];
  const { place, field } = placeInWords(root, path);
  const { code, reason } = issueWords(issue, field === '' ? 'it' : quoted(field), valueAt(root, path));
  return { code, place, sentence: `${place}: ${reason}` };
}
