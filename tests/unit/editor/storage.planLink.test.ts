/** A plan in a link: it comes out as it went in, and whatever else is in a link is refused with a sentence. */
import { afterEach, describe, expect, test, vi } from 'vitest';
import { linkOf, MOST_LINK, readLink } from '../../../src/editor/storage/planLink.ts';
import { readPlan } from '../../../src/plan/read.ts';
import { runCommand } from '../../../src/plan/run.ts';
import type { Plan } from '../../../src/plan/schema.ts';
import { writePlan } from '../../../src/plan/write.ts';
import { anyCommand, numbersFrom } from '../../fixtures/anyCommand.ts';
import { SAMPLE_PLANS } from '../../fixtures/samplePlans.ts';
import { few, seeds } from '../../fixtures/seeds.ts';

afterEach(() => void vi.unstubAllGlobals());

/** A browser without the packing of streams. */
const withoutPacking = () => {
  vi.stubGlobal('CompressionStream', undefined);
  vi.stubGlobal('DecompressionStream', undefined);
};

/** The plan's file as it comes out of the link; a sentence where it does not. */
async function throughLink(text: string): Promise<string> {
  const link = await readLink(await linkOf(text));
  if (!link.ok) return link.sentence;
  const read = readPlan(link.text);
  return read.ok ? writePlan(read.plan) : read.problem.sentence;
}

function changed(plan: Plan, seed: number, times: number): Plan {
  const random = numbersFrom(seed);
  let now = plan;
  for (let k = 0; k < times; k++) {
    const after = runCommand(now, anyCommand(now, random));
    if (after.ok) now = after.plan;
  }
  return now;
}

describe.each([
  ['packed', () => undefined],
  ['plain', withoutPacking],
])('%s', (_, prepare) => {
  test('every sample goes through a link byte for byte', async () => {
    prepare();
    for (const { name, plan } of SAMPLE_PLANS) {
      const text = writePlan(plan);
      expect(await throughLink(text), name).toBe(text);
    }
  });

  test('so does every sample after changes at random, in any letters', async () => {
    prepare();
    for (const seed of seeds(60, 3))
      for (const { name, plan } of SAMPLE_PLANS) {
        const named = { ...changed(plan, seed, 12), name: `${name} – Größe 14″ 鼓 🥁 ${seed}` };
        const text = writePlan(named);
        expect(await throughLink(text), `${name}, seed ${seed}`).toBe(text);
      }
  });

  test('a link that is cut short, or has one wrong letter, is damaged, or still the same plan', async () => {
    prepare();
    const { plan } = SAMPLE_PLANS[0];
    const link = await linkOf(writePlan(plan));
    const right = await readLink(link);
    const refused = { ok: false, sentence: expect.stringContaining('damaged or cut short') };
    const from = link.indexOf('.') + 1;
    for (const length of seeds(link.length - 1, few(400)))
      expect(await readLink(link.slice(0, length))).toEqual(refused);
    for (const at of seeds(link.length - from, few(400)).map((k) => from + k - 1)) {
      const wrong = await readLink(`${link.slice(0, at)}${link[at] === 'A' ? 'B' : 'A'}${link.slice(at + 1)}`);
      // The last letter may have bits that stand for nothing.
      if (at === link.length - 1 && wrong.ok) expect(wrong).toEqual(right);
      else expect(wrong, `letter ${at}`).toEqual(refused);
    }
  });
});

test('links of the samples are short enough to be sent', async () => {
  for (const { name, plan } of SAMPLE_PLANS) {
    const { length } = await linkOf(writePlan(plan));
    expect(length, name).toBeLessThan(6000);
    expect(length).toBeLessThan(MOST_LINK);
  }
});

test('what a mail program puts behind a link is no part of it', async () => {
  const text = writePlan(SAMPLE_PLANS[0].plan);
  const link = await linkOf(text);
  const right = await readLink(link);
  for (const after of ['.', ')', '>', ' and so on', '%20', '\n']) expect(await readLink(link + after)).toEqual(right);
});

test.each([
  ['#plan=', 'damaged'],
  ['#plan=d1.', 'damaged'],
  ['#plan=d1.!!!', 'damaged'],
  ['#plan=p1.AAAA', 'damaged'],
  ['#plan=q1.AAAA', 'newer version'],
])('%s is refused: %s', async (fragment, words) => {
  expect(await readLink(fragment)).toEqual({ ok: false, sentence: expect.stringContaining(words) });
});

test('a browser that cannot unpack says so', async () => {
  const link = await linkOf(writePlan(SAMPLE_PLANS[0].plan));
  withoutPacking();
  expect(await readLink(link)).toEqual({ ok: false, sentence: expect.stringContaining('cannot unpack') });
});

test('a small link that unpacks to a great deal is given up as soon as it is larger than any plan', async () => {
  const zeros = new Blob([new Uint8Array(40_000_000)]).stream().pipeThrough(new CompressionStream('deflate-raw'));
  const packed = Buffer.from(await new Response(zeros).arrayBuffer());
  expect(packed.length).toBeLessThan(60_000);
  let unpacked = 0;
  const Real = DecompressionStream;
  vi.stubGlobal('DecompressionStream', function counting(format: CompressionFormat) {
    const real = new Real(format);
    const counter = new TransformStream<Uint8Array, Uint8Array>({
      transform(chunk, controller) {
        unpacked += chunk.length;
        controller.enqueue(chunk);
      },
    });
    return { writable: real.writable, readable: real.readable.pipeThrough(counter) };
  });
  const link = await readLink(`#plan=d1.${packed.toString('base64url')}`);
  expect(link).toEqual({ ok: false, sentence: expect.stringContaining('larger than any plan') });
  expect(unpacked).toBeLessThan(6_000_000);
});
