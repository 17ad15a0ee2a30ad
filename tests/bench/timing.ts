/** Timing for the benches: rounds of many runs, least and median; results are summed so that no work is dropped. */

export interface Timing {
  readonly leastMs: number;
  readonly medianMs: number;
}

let sink = 0;

/** What all timed runs added up to; printed at the end of a bench. */
export const checksum = (): number => sink;

/** So long a run is repeated before it counts: shorter, and a compiler that has not seen it yet is what is measured. */
const WARM_UP_MS = 400;
const ROUND_MS = 20;

/** Milliseconds of one run, over rounds of about 20 ms each, once it is warm. */
export function time(run: () => number, rounds = 15): Timing {
  const from = performance.now();
  let warmed = 0;
  do {
    sink += run();
    warmed++;
  } while (performance.now() - from < WARM_UP_MS);
  const once = (performance.now() - from) / warmed;
  const runs = Math.max(1, Math.min(5000, Math.round(ROUND_MS / once)));
  const times: number[] = [];
  const count = once > 200 ? 3 : rounds;
  for (let round = 0; round < count; round++) {
    const start = performance.now();
    for (let k = 0; k < runs; k++) sink += run();
    times.push((performance.now() - start) / runs);
  }
  times.sort((a, b) => a - b);
  return { leastMs: times[0], medianMs: times[times.length >> 1] };
}

export function row(label: string, n: number, { leastMs, medianMs }: Timing, against?: Timing): string {
  const ratio = against
    ? `   least ${(leastMs / against.leastMs).toFixed(1)}, median ${(medianMs / against.medianMs).toFixed(1)} times ours`
    : '';
  return `${label.padEnd(34)} N=${String(n).padEnd(5)} least ${leastMs.toFixed(4).padStart(10)} ms   median ${medianMs.toFixed(4).padStart(10)} ms${ratio}`;
}

/** How the time grows from one N to another: 1 is in proportion to N. */
export function growth(from: Timing, fromN: number, to: Timing, toN: number): number {
  return Math.log(to.medianMs / from.medianMs) / Math.log(toN / fromN);
}
