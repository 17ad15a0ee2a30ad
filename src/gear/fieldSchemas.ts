/**
 * Schemas of single fields, as the schemas of gear, plans and stock lists are made of them. What is said here of a field is what is
 * told of it when a file is refused, what a field of the page asks for, and what the published schemas say.
 */
import * as z from 'zod/mini';

/** Checks are plain code: the page's policy forbids functions made from text, and they were no quicker. */
z.config({ jitless: true });

export const between = (least: number, most: number) => z.number().check(z.minimum(least), z.maximum(most));
export const upTo = (most: number) => between(0, most);
export const whole = (least: number, most: number) => z.int().check(z.minimum(least), z.maximum(most));

/** Sizes that gear, plans and stock lists have in common, mm. A tube comes off the rack at 6.4 m, which is 21 ft. */
export const tubeLength = between(50, 6500);
export const bendRadius = between(50, 20_000);
export const footLength = between(100, 2000);
/** A riser's module may stand for a whole stage. */
export const moduleSide = between(100, 20_000);

export const text = (most: number) => z.string().check(z.maxLength(most));
/** A text that is not empty. */
export const word = (most: number) => z.string().check(z.minLength(1), z.maxLength(most));
/** Ids are keys of records; three words would reach behind a JavaScript object, so no id is one of them. */
export const id = word(80).check(z.regex(/^(?!(?:__proto__|constructor|prototype)$)/));

export const list = <T extends z.core.SomeType>(entry: T, most: number) => z.array(entry).check(z.maxLength(most));
/** A list of one or more; of `least` or more. */
export const some = <T extends z.core.SomeType>(entry: T, most: number, least = 1) =>
  z.array(entry).check(z.minLength(least), z.maxLength(most));
