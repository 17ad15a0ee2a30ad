/**
 * What the schema says of a field: where it is, what it may be at least and at most, whether it may be left out. Read from the
 * schema itself, so that a field refuses what a file with it would be refused for, and nothing else.
 */
import type * as z from 'zod/mini';

export interface Bounds {
  readonly least?: number;
  readonly most?: number;
}

export interface SchemaField {
  readonly type: z.core.$ZodTypeDef['type'];
  /** Numbers: the least and most. Texts: `most` letters. */
  readonly least: number;
  readonly most: number;
  /** Whether the least itself is refused: a size of nothing. */
  readonly isAbove: boolean;
  /** Whether it may be left out, or null. */
  readonly mayBeNone: boolean;
  /** Where it is in the thing itself: the path without the words that choose one of several forms. */
  readonly keys: readonly string[];
}

type Def = z.core.$ZodTypes['_zod']['def'];
const defOf = (schema: z.core.$ZodType): Def => schema._zod.def as Def;

/** The schema of what is there: of the value that may be left out, of one member of a list or of a record. */
function within(schema: z.core.$ZodType): z.core.$ZodType {
  const def = defOf(schema);
  switch (def.type) {
    case 'optional':
    case 'nullable':
      return within(def.innerType);
    case 'array':
      return within(def.element);
    case 'record':
      return within(def.valueType);
    default:
      return schema;
  }
}

/** Which form of a union a word chooses: the one whose discriminator is that word. */
function formOf(def: Extract<Def, { type: 'union' }>, word: string): z.core.$ZodType | undefined {
  const { discriminator } = def as typeof def & { readonly discriminator?: string };
  return def.options.find((option) => {
    const form = defOf(option);
    const tag = form.type === 'object' && discriminator !== undefined ? defOf(form.shape[discriminator]) : undefined;
    return tag?.type === 'literal' && tag.values.includes(word);
  });
}

/** A word names a field, an end of a range by its number, or one of several forms. */
function stepInto(def: Def, word: string): z.core.$ZodType | undefined {
  switch (def.type) {
    case 'union':
      return formOf(def, word);
    case 'object':
      return def.shape[word];
    case 'tuple':
      return def.items[Number(word)];
    default:
      return undefined;
  }
}

interface Found {
  readonly schema: z.core.$ZodType;
  readonly keys: readonly string[];
}

function follow(root: z.core.$ZodType, path: string): Found {
  let schema = root;
  const keys: string[] = [];
  for (const word of path.split('.')) {
    const def = defOf(within(schema));
    const next = stepInto(def, word);
    if (next === undefined) throw new Error(`The schema has no “${word}” on the way to “${path}”.`);
    if (def.type !== 'union') keys.push(word);
    schema = next;
  }
  return { schema, keys };
}

/**
 * The schema at a path such as `setups.pieces.rack.legs`. Members of lists and records need no word; a word chooses the form where
 * there are several (`pieces.rack`).
 * Throws: an Error for a path that the schema does not have.
 */
export const schemaAt = (root: z.core.$ZodType, path: string): z.core.$ZodType => within(follow(root, path).schema);

/** What a schema says of the field at a path below it. Throws as schemaAt does. */
export function fieldAt(root: z.core.$ZodType, path: string): SchemaField {
  const { schema, keys } = follow(root, path);
  const { type } = defOf(schema);
  const inner = within(schema);
  let [least, most, isAbove] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY, false];
  const { checks = [] } = defOf(inner) as { readonly checks?: readonly z.core.$ZodCheck[] };
  for (const check of checks) {
    const def = check._zod.def as z.core.$ZodChecks['_zod']['def'];
    if (def.check === 'greater_than') [least, isAbove] = [Number(def.value), !def.inclusive];
    else if (def.check === 'less_than') most = Number(def.value);
    else if (def.check === 'max_length') most = def.maximum;
  }
  return {
    type: defOf(inner).type,
    least,
    most,
    isAbove,
    mayBeNone: type === 'optional' || type === 'nullable',
    keys,
  };
}
