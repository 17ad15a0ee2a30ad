/**
 * Plan to text: the same plan gives the same bytes, on every machine.
 *
 * Two spaces, one field a line, a newline at the end. Fields stand in the schema's order, unknown ones after them by
 * name. A record beside an `order` list (setups, pieces) is written in that order, any other by id.
 */
import type * as z from 'zod/mini';
import { byText } from '../gather.ts';
import { type Plan, planSchema } from './schema.ts';

/** How a part of the document is laid out; read off the schema once, so that fields are listed in one place only. */
type Layout =
  | { readonly kind: 'object'; readonly fields: ReadonlyMap<string, Layout> }
  | { readonly kind: 'record'; readonly entry: Layout }
  | { readonly kind: 'list'; readonly entry: Layout }
  | { readonly kind: 'choice'; readonly by: string; readonly options: ReadonlyMap<unknown, Layout> }
  | { readonly kind: 'other' };

const OTHER: Layout = { kind: 'other' };

function layoutOf(schema: z.core.$ZodType): Layout {
  const { def } = (schema as z.core.$ZodTypes)._zod;
  switch (def.type) {
    case 'object':
      return {
        kind: 'object',
        fields: new Map(Object.entries(def.shape).map(([key, field]) => [key, layoutOf(field)])),
      };
    case 'record':
      return { kind: 'record', entry: layoutOf(def.valueType) };
    case 'array':
      return { kind: 'list', entry: layoutOf(def.element) };
    case 'optional':
    case 'nullable':
      return layoutOf(def.innerType);
    case 'union': {
      const by = (def as z.core.$ZodDiscriminatedUnionDef).discriminator;
      const options = new Map<unknown, Layout>();
      for (const option of def.options)
        for (const value of option._zod.propValues?.[by] ?? []) options.set(value, layoutOf(option));
      return { kind: 'choice', by, options };
    }
    default:
      return OTHER;
  }
}

/** Records that the `order` beside them speaks of. */
const ORDERED = new Set(['setups', 'pieces']);

type Fields = Readonly<Record<string, unknown>>;

/** Names in the order of `first`, then the others by name. */
function namesInOrder(value: Fields, first: Iterable<string>): string[] {
  const known = [...new Set(first)].filter((name) => Object.hasOwn(value, name));
  const listed = new Set(known);
  return [
    ...known,
    ...Object.keys(value)
      .filter((name) => !listed.has(name))
      .sort(byText),
  ];
}

function written(value: unknown, layout: Layout, indent: string, keys: Iterable<string>): string {
  if (typeof value === 'number' && !Number.isFinite(value))
    throw new RangeError(`A plan cannot hold the number ${value}.`);
  if (typeof value !== 'object' || value === null) return JSON.stringify(value);
  const inner = `${indent}  `;
  if (Array.isArray(value)) {
    if (value.length === 0) return '[]';
    const entry = layout.kind === 'list' ? layout.entry : OTHER;
    return `[\n${value.map((each) => inner + written(each, entry, inner, [])).join(',\n')}\n${indent}]`;
  }
  const fields = value as Fields;
  const chosen = layout.kind === 'choice' ? (layout.options.get(fields[layout.by]) ?? OTHER) : layout;
  const names = namesInOrder(fields, chosen.kind === 'object' ? chosen.fields.keys() : keys);
  const lines: string[] = [];
  for (const name of names) {
    if (fields[name] === undefined) continue;
    const next =
      chosen.kind === 'object' ? (chosen.fields.get(name) ?? OTHER) : chosen.kind === 'record' ? chosen.entry : OTHER;
    const order = next.kind === 'record' && ORDERED.has(name) && Array.isArray(fields.order) ? fields.order : [];
    lines.push(`${inner}${JSON.stringify(name)}: ${written(fields[name], next, inner, order)}`);
  }
  return lines.length === 0 ? '{}' : `{\n${lines.join(',\n')}\n${indent}}`;
}

/** A writer of documents of one schema. The writer throws RangeError on a number that is not finite. */
export function writeBySchema(schema: z.core.$ZodType): (document: unknown) => string {
  const layout = layoutOf(schema);
  return (document) => `${written(document, layout, '', [])}\n`;
}

const write = writeBySchema(planSchema);

/** Throws: RangeError on a number that is not finite; no command and no file leaves one in a plan. */
export const writePlan = (plan: Plan): string => write(plan);
