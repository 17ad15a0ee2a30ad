/** What the pull list says in words, for sheet and table alike. */
import type { PartRow } from '../checks/parts.ts';
import { END_CAP_ID } from '../gear/kinds.ts';
import type { Instead, PullUnit, TubeCuts } from '../lists/packing.ts';
import type { Plan } from '../plan/schema.ts';
import { formatLength, formatMass, formatNumber, MM_PER_IN } from '../units.ts';

/** A part's name; an end cap's says the tube's size, which it has nowhere else. */
export function partLabel({ gear, label }: Pick<PartRow, 'gear' | 'label'>, { units }: Plan): string {
  if (!END_CAP_ID.test(gear)) return label;
  return `${label}, tube of ${formatLength(Number.parseFloat(gear.slice('end-cap-'.length)), units)}`;
}

/** `1 x Straight tube 60 in, to be cut to 46"; 2 x Boom arm, long in its place`. Empty where all is as planned. */
export function insteadWords(instead: readonly Instead[], { units }: Plan): string {
  return instead
    .map(({ count, name, cutToMm }) => {
      const cut = cutToMm === null ? '' : `to be cut to ${formatLength(cutToMm, units)}`;
      return name === null ? `${count} ${cut}` : `take ${count} x ${name}${cut === '' ? '' : `, ${cut}`}`;
    })
    .join('; ');
}

/** With both its decimals, in whatever currency. */
export const priceText = (value: number): string => value.toFixed(2);

/** `12.3 kg`, `over 12.3 kg` where something was not weighed. */
export function massWords(
  { knownMass, unmeasured }: Pick<PullUnit, 'knownMass' | 'unmeasured'>,
  { units }: Plan,
): string {
  if (unmeasured === 0) return formatMass(knownMass, units);
  return knownMass === 0 ? 'not weighed' : `over ${formatMass(knownMass, units)}`;
}

/** `5' 5" x 31", 49" high`: rounded up, for it must go through doors. Empty where nothing is laid out. */
export function sizeWords({ size }: PullUnit, { units }: Plan): string {
  if (!size) return '';
  const step = units === 'in' ? MM_PER_IN : 10;
  const [long, wide, high] = [size.lengthMm, size.widthMm, size.heightMm]
    .map((mm) => Math.ceil(mm / step - 1e-9) * step)
    .map((mm) => (units === 'in' ? formatLength(mm, units) : formatNumber(mm, 0)));
  return `As it stands ${long} × ${wide}${units === 'in' ? '' : ' mm'}, ${high}${units === 'in' ? '' : ' mm'} high.`;
}

/** How it is lifted; one sentence or two. */
export function liftWords({ lift, knownMass, unmeasured, kind }: PullUnit, { units }: Plan): string {
  if (!lift) return 'Nobody has weighed it: try it before you lift it.';
  const kg = (value: number) => formatMass(value, units);
  const rest = unmeasured === 0 ? '' : ` ${unmeasured} of its parts ${unmeasured === 1 ? 'was' : 'were'} not weighed.`;
  const off = kind === 'rack' ? 'let what is mounted on it travel apart' : 'take it apart first';
  switch (lift.hands) {
    case 'takeApart':
      if (lift.twoPeople <= 0) return `Hand it up to someone on the riser: no lift is that high.${rest}`;
      return `Do not lift it as it is: two people should lift no more than ${kg(lift.twoPeople)} for its size; ${off}.${rest}`;
    case 'two': {
      const one =
        lift.onePerson > 0
          ? `one person should lift no more than ${kg(lift.onePerson)} for its size`
          : 'it is too deep for one';
      return `Lift it with two: ${one}.${rest}`;
    }
    case 'unknown':
      return `${unmeasured} of its parts ${unmeasured === 1 ? 'was' : 'were'} not weighed: try it before you lift it alone. Known: ${kg(knownMass)}.`;
    case 'one':
      return `One person can lift it: ${kg(lift.onePerson)} is the most for its size.`;
  }
}

/** `Steel tube, 38.1 mm outside, wall 1.5 mm`. */
export function sectionWords({ section, cuts }: TubeCuts, { units }: Plan): string {
  if (!section) return `${cuts[0]?.gear ?? 'Tube'}: section not known`;
  const material = `${section.material.charAt(0).toUpperCase()}${section.material.slice(1)}`;
  // Walls are known in tenths of a mm everywhere; a sixteenth of an inch would be too coarse.
  return `${material} tube, ${formatLength(section.outsideMm, units)} outside, wall ${formatNumber(section.wallMm, 1)} mm`;
}

/** `2 x 46", 4 x 20"`; bent ones say so. */
export function cutWords({ cuts }: TubeCuts, { units }: Plan): string {
  const counts = new Map<string, number>();
  for (const { cutLength, bend, count } of cuts) {
    const bent = bend === null ? '' : `, bent to ${formatLength(bend.radiusMm, units)}`;
    const words = cutLength === null ? 'not known' : `${formatLength(cutLength, units)}${bent}`;
    counts.set(words, (counts.get(words) ?? 0) + count);
  }
  return [...counts].map(([words, count]) => `${count} x ${words}`).join('; ');
}
