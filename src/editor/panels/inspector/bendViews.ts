/**
 * A curved tube's bend seen three ways: by radius, by the rise of its middle, by the chord between its ends. The plan
 * holds the radius; the cut length stays, so each of the three decides the other two.
 */
import { bendFromLengthChord, bendFromLengthRadius, bendFromLengthRise } from '../../../geometry/arcs.ts';
import { type Bar, type Bend, planSchema } from '../../../plan/schema.ts';
import { toDegrees } from '../../../units.ts';
import { fieldAt } from '../fields/bounds.ts';

export interface BendViews {
  readonly radiusMm: number;
  readonly riseMm: number;
  readonly chordMm: number;
  readonly angleDeg: number;
}

type Tube = Pick<Bar, 'cutLengthMm' | 'bend'>;

const RADIUS = fieldAt(planSchema, 'setups.pieces.rack.spans.bars.bend.radiusMm');

/** All three views of a bent tube; null for a straight one, or one whose numbers make no tube. */
export function bendViews({ cutLengthMm, bend }: Tube): BendViews | null {
  if (bend === null) return null;
  try {
    const { radius, rise, chord, angle } = bendFromLengthRadius(cutLengthMm, bend.radiusMm, bend.straightEndsMm);
    return { radiusMm: radius, riseMm: rise, chordMm: chord, angleDeg: toDegrees(angle) };
  } catch {
    return null;
  }
}

export type BendChange = { readonly ok: true; readonly bend: Bend } | { readonly ok: false; readonly sentence: string };

/** The bend that gives this tube the wanted radius, rise or chord; a sentence when no tube of its length has it. */
export function bendFor(tube: Tube, view: 'radius' | 'rise' | 'chord', wantedMm: number): BendChange {
  const { cutLengthMm, bend } = tube;
  if (bend === null) return { ok: false, sentence: 'This bar is straight. Bend it first.' };
  const from = { radius: bendFromLengthRadius, rise: bendFromLengthRise, chord: bendFromLengthChord }[view];
  let radiusMm: number;
  try {
    const made = from(cutLengthMm, wantedMm, bend.straightEndsMm);
    radiusMm = made.radius;
    if (view !== 'radius' && made.angle === 0)
      return { ok: false, sentence: 'That is a straight bar. Use “Straighten” for it.' };
  } catch (problem) {
    if (!(problem instanceof RangeError)) throw problem;
    return { ok: false, sentence: problem.message };
  }
  if (radiusMm < RADIUS.least || radiusMm > RADIUS.most)
    return {
      ok: false,
      sentence: `That needs a bend radius of ${Math.round(radiusMm)} mm; it can be from ${RADIUS.least} mm to ${RADIUS.most / 1000} m.`,
    };
  return { ok: true, bend: { ...bend, radiusMm } };
}
