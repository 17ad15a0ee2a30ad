/**
 * Everything that a browser keeps, in one file: all plans with their versions, the stock list, the look. Taking such a file in
 * never writes over anything: what is here already stays, and a plan that is here in another state is kept beside it.
 */
import * as z from 'zod/mini';
import { LIMITS } from '../../plan/schema.ts';
import { writePlan } from '../../plan/write.ts';
import { counted } from '../../words/names.ts';
import { BEGINNING } from './journal.ts';
import { gather, pack, unpack } from './packed.ts';
import type { PlanStore, WholePlan } from './planStore.ts';
import { replay } from './replay.ts';
import { VERSIONS } from './versions.ts';

const FORMAT = 'legroom-everything';
const VERSION = 1;
/** Far more than a browser gives room for. */
const MOST_BYTES = 400e6;

const count = z.number().check(z.nonnegative());
const planText = z.string().check(z.maxLength(LIMITS.bytes));
const archiveSchema = z.looseObject({
  format: z.literal(FORMAT),
  version: z.literal(VERSION),
  /** The last written first. */
  plans: z.array(
    z.looseObject({
      id: z.string().check(z.minLength(1), z.maxLength(100)),
      name: z.string(),
      keptAt: z.number(),
      text: planText,
      /** Changes since it was begun. */
      n: count,
      versions: z.array(z.looseObject({ n: count, keptAt: z.number(), text: planText })).check(z.maxLength(VERSIONS)),
    }),
  ),
  /** The text of the stock list, as its own file has it; null: none. */
  stock: z.nullable(z.string()),
  look: z.string(),
});
export type Archive = z.infer<typeof archiveSchema>;

/** A plan's text with what is in its journal; of one that this program cannot read, as it was kept. */
function textOf({ plan, journal }: WholePlan): Pick<Archive['plans'][number], 'name' | 'text' | 'n'> {
  const replayed = journal.length === 0 ? null : replay(plan.text, plan.at, journal);
  if (!replayed?.ok) return { name: plan.name, text: plan.text, n: plan.at.n };
  return { name: replayed.plan.name, text: writePlan(replayed.plan), n: replayed.at.n };
}

/** Throws (rejects): what the browser says when it lets nothing be read. */
export async function archiveOf(store: PlanStore, stock: string | null, look: string): Promise<Archive> {
  const plans: Archive['plans'] = [];
  for (const id of await store.ids()) {
    const whole = await store.whole(id);
    if (whole === null || whole.plan.untouched) continue;
    const versions = [];
    for (const { n, keptAt, text } of whole.versions) versions.push({ n, keptAt, text: await unpack(text) });
    plans.push({ id, keptAt: whole.plan.keptAt, ...textOf(whole), versions });
  }
  return { format: FORMAT, version: VERSION, plans, stock, look };
}

export type ReadArchive =
  | { readonly ok: true; readonly archive: Archive }
  | { readonly ok: false; readonly sentence: string };

const refused = (sentence: string): ReadArchive => ({ ok: false, sentence });

/** The file's text, from gzip or plain. Throws (rejects): RangeError where it is larger than any such file; TypeError: broken gzip. */
export async function archiveText(file: Blob): Promise<string> {
  const head = new Uint8Array(await file.slice(0, 2).arrayBuffer());
  const isGzip = head[0] === 0x1f && head[1] === 0x8b;
  const stream = isGzip ? file.stream().pipeThrough(new DecompressionStream('gzip')) : file.stream();
  const bytes = await gather(stream, MOST_BYTES);
  if (bytes === null) throw new RangeError('too large');
  return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
}

export function readArchive(text: string): ReadArchive {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    return refused('The file is broken, or none that “Save everything to one file” writes: nothing was taken from it.');
  }
  const { format, version } = (value ?? {}) as Record<string, unknown>;
  if (format !== FORMAT)
    return refused(
      format === 'legroom'
        ? 'This is a single plan: open it by “Open …” in the File menu.'
        : 'The file is none of those that “Save everything to one file” writes: nothing was taken from it.',
    );
  if (typeof version === 'number' && version > VERSION)
    return refused('The file was written by a newer program: update the program. Nothing was taken from it.');
  const read = z.safeParse(archiveSchema, value);
  if (!read.success) {
    const place = read.error.issues[0].path.join('.');
    return refused(`The file is broken at ${place === '' ? 'its beginning' : place}: nothing was taken from it.`);
  }
  return { ok: true, archive: read.data };
}

export interface Taken {
  readonly added: readonly string[];
  readonly same: readonly string[];
  readonly beside: readonly string[];
}

/** Puts the plans of a file beside those that are kept. Throws (rejects): what the browser says when there is no room. */
export async function takeIn(archive: Archive, store: PlanStore, newId: () => string): Promise<Taken> {
  const added: string[] = [];
  const same: string[] = [];
  const beside: string[] = [];
  for (const { id, name, keptAt, text, n, versions } of archive.plans) {
    const here = await store.whole(id);
    if (here !== null && textOf(here).text === text) {
      same.push(name);
      continue;
    }
    const plan = here === null ? id : newId();
    (here === null ? added : beside).push(name);
    const packed = versions.map(async (version) => ({
      plan,
      n: version.n,
      keptAt: version.keptAt,
      text: await pack(version.text),
    }));
    await store.putWhole({
      plan: { id: plan, name, text, keptAt, at: { ...BEGINNING, n }, fileName: null, fileText: null },
      journal: [],
      versions: await Promise.all(packed),
    });
  }
  return { added, same, beside };
}

/** What was taken in, in a sentence or several. */
export function takenWords({ added, same, beside }: Taken): string {
  const plans = (list: readonly string[]) => counted(list.length, 'plan');
  const said = [added.length === 0 ? 'No new plan was in the file.' : `${plans(added)} taken in.`];
  if (same.length > 0) said.push(`${plans(same)} here already, just so.`);
  if (beside.length > 0)
    said.push(
      `${plans(beside)} here in another state: what was in the file is kept beside it, as a plan of its own (${beside.map((name) => `“${name}”`).join(', ')}).`,
    );
  return said.join(' ');
}
