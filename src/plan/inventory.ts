/**
 * What somebody owns: a `*.legroom-stock.json` file, kept beside plans.
 *
 * An entry is so many of one gear, from the catalogue, from the file's own gear, or from a plan that is open beside it. A tube says
 * its cut length and bend where they are not the gear's own, so that "three bars of 42 in, one cut to 860 mm" is two entries. A
 * count of 0 is allowed: it keeps a price and a note of something to buy. End caps have no gear; their ids say the tube's size.
 *
 * Reading is as strict and kind as a plan's: the first thing wrong is told in one sentence, nothing is opened by half, fields
 * that this version does not know are kept.
 *
 * Units:  mm, degrees, kg as in a plan; prices in whatever `currency` says, for one.
 */

import * as z from 'zod/mini';
import { gearOf } from '../gear/catalogue.ts';
import { bendRadius, id, list, text, tubeLength, upTo, whole, word } from '../gear/fieldSchemas.ts';
import { END_CAP_ID, isPart } from '../gear/kinds.ts';
import { type Gear, gearSchema } from '../gear/schema.ts';
import { parseJson } from './json.ts';
import { type Problem, quoted } from './places.ts';
import { armFlaw, fileSizeProblem } from './rules.ts';
import { schemaProblem } from './schemaWords.ts';
import { writeBySchema } from './write.ts';

const INVENTORY_FORMAT = 'legroom-stock';
const INVENTORY_VERSION = 1;
const INVENTORY_LIMITS = { entries: 2000, gear: 1000 };

const ownedPart = z.looseObject({
  gear: word(80),
  count: whole(0, 10_000),
  /** Tubes: where it is not the gear's own. */
  cutLengthMm: z.optional(tubeLength),
  /** Tubes: null for a straight one; left out, as the gear is bent. */
  bend: z.optional(z.nullable(z.looseObject({ radiusMm: bendRadius, straightEndsMm: upTo(5000) }))),
  /** For one. */
  price: z.optional(upTo(1_000_000)),
  note: z.optional(text(4000)),
});

export const inventorySchema = z.looseObject({
  format: z.literal(INVENTORY_FORMAT),
  version: z.literal(INVENTORY_VERSION),
  name: text(120),
  currency: z.optional(text(10)),
  parts: list(ownedPart, INVENTORY_LIMITS.entries),
  /** Gear that the catalogue does not have, or has with other sizes. */
  gear: z.optional(z.record(id, gearSchema)),
  note: z.optional(text(4000)),
});

export type Inventory = z.infer<typeof inventorySchema>;
export type OwnedPart = z.infer<typeof ownedPart>;

export type ReadInventory =
  | { readonly ok: true; readonly inventory: Inventory }
  | { readonly ok: false; readonly problem: Problem };

const THE_FILE = 'The file';

const refused = (code: string, place: string, reason: string): ReadInventory => ({
  ok: false,
  problem: { code, place, sentence: `${place}: ${reason}` },
});

const said = (code: string, sentence: string): ReadInventory => ({
  ok: false,
  problem: { code, place: THE_FILE, sentence },
});

/** The same problem, said with the place that a stock list has for it. */
function refusedAs(problem: Problem, place: string): ReadInventory {
  return refused(problem.code, place, problem.sentence.slice(problem.place.length + 2));
}

/** Part 3, "clamp-arm". */
function placeOf(parts: readonly unknown[], index: number): string {
  const part = parts[index];
  const gear = typeof part === 'object' && part !== null ? (part as { gear?: unknown }).gear : undefined;
  return typeof gear === 'string' ? `Part ${index + 1}, ${quoted(gear)}` : `Part ${index + 1}`;
}

/** Is it one of our stock lists, and of which version? */
function headProblem(value: unknown): ReadInventory | null {
  if (typeof value !== 'object' || value === null || Array.isArray(value))
    return said('wrong_format', 'The file is JSON, but not a stock list: a stock list is an object in braces.');
  const { format, version } = value as Record<string, unknown>;
  if (format !== INVENTORY_FORMAT) {
    const what = typeof format === 'string' ? quoted(format) : format === undefined ? 'missing' : 'not text';
    return said(
      'wrong_format',
      `The file is not a stock list of this program: its "format" is ${what}, where ${quoted(INVENTORY_FORMAT)} is needed.`,
    );
  }
  if (typeof version !== 'number' || !Number.isInteger(version) || version < 1)
    return said(
      'wrong_version',
      `The file's "version" must be a whole number from 1 on${version === undefined ? ', and is missing' : ''}.`,
    );
  if (version > INVENTORY_VERSION)
    return said(
      'newer_version',
      `The file was written by a newer program (version ${version} of the format, and this program reads up to ${INVENTORY_VERSION}), so it is left unopened: update the program.`,
    );
  return null;
}

/** Own gear and parts one by one, so that the sentence names the entry; then the list as a whole. */
function shapeProblem(value: Record<string, unknown>): ReadInventory | null {
  const { gear, parts } = value;
  if (typeof gear === 'object' && gear !== null && !Array.isArray(gear))
    for (const [id, entry] of Object.entries(gear)) {
      const place = `Gear ${quoted(id)}`;
      const wrong = schemaProblem(gearSchema, entry, entry, []);
      if (wrong) return refusedAs(wrong, place);
      const known = entry as Gear;
      if (known.id !== id)
        return refused('id_differs', place, `its id is ${quoted(known.id)}, but it stands under ${quoted(id)}.`);
      const flaw = armFlaw(known);
      if (flaw) return refused(flaw.code, place, flaw.reason);
    }
  // Too many are told as that, before each is looked at.
  if (Array.isArray(parts) && parts.length <= INVENTORY_LIMITS.entries)
    for (const [i, part] of parts.entries()) {
      const wrong = schemaProblem(ownedPart, part, part, []);
      if (wrong) return refusedAs(wrong, placeOf(parts, i));
    }
  const wrong = schemaProblem(inventorySchema, value, value, []);
  return wrong && refusedAs(wrong, THE_FILE);
}

/** Each part is gear that somebody knows, and only tubes are cut and bent. */
function partProblem({ parts, gear = {} }: Inventory, planGear: Readonly<Record<string, Gear>>): ReadInventory | null {
  const own = { ...planGear, ...gear };
  for (const [i, part] of parts.entries()) {
    const place = placeOf(parts, i);
    const known = gearOf(own, part.gear);
    if (!known && !END_CAP_ID.test(part.gear))
      return refused(
        'unknown_gear',
        place,
        'it is neither in the catalogue nor in the gear of this file or of the open plan.',
      );
    if (known && !isPart(known))
      return refused('wrong_gear', place, 'it is no part of a kit: decks and stage items are not counted here.');
    if (known?.kind !== 'tube' && (part.cutLengthMm !== undefined || part.bend))
      return refused('wrong_gear', place, 'only a tube has a cut length or a bend.');
  }
  return null;
}

/**
 * Text to inventory. `planGear`: the gear of the plan that is open, whose ids may be used as well.
 * Never throws; the problem's sentence says the place and the reason.
 */
export function readInventory(text: string, planGear: Readonly<Record<string, Gear>> = {}): ReadInventory {
  const size = fileSizeProblem(text, THE_FILE);
  if (size) return { ok: false, problem: size };
  const parsed = parseJson(text);
  if (!parsed.ok) {
    const reason = text.trim() === '' ? 'the file is empty.' : parsed.reason;
    return refused(parsed.code, `Line ${parsed.line}, column ${parsed.column}`, reason);
  }
  const { value, flaw } = parsed;
  const head = headProblem(value);
  if (head) return head;
  if (flaw) {
    const where = flaw.path.length === 0 ? '' : ` (in ${quoted(flaw.path.join('.'))})`;
    const reasons = {
      doubled_key: `${quoted(flaw.written)} is written twice in the same object${where}.`,
      refused_key: `${quoted(flaw.written)} cannot be the name of a field${where}.`,
      not_finite: `${quoted(flaw.written)} is not a number that a stock list can hold${where}.`,
    };
    return refused(flaw.code, THE_FILE, reasons[flaw.code]);
  }
  const shape = shapeProblem(value as Record<string, unknown>);
  if (shape) return shape;
  const inventory = value as Inventory;
  return partProblem(inventory, planGear) ?? { ok: true, inventory };
}

const write = writeBySchema(inventorySchema);

/** The same inventory gives the same bytes. Throws: RangeError on a number that is not finite. */
export const writeInventory = (inventory: Inventory): string => write(inventory);

export const newInventory = (name: string): Inventory => ({
  format: INVENTORY_FORMAT,
  version: INVENTORY_VERSION,
  name,
  parts: [],
});
