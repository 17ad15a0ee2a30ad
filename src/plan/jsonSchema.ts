/** The plan's schema for other programs, as JSON Schema 2020-12. Made from schema.ts; `npm run schema` writes it to public/. */
import { z } from 'zod';
import { planSchema } from './schema.ts';

/** What a schema cannot say (that a mount's rack is there, say) is listed in SPEC.md and told by readPlan(). */
export function planJsonSchema(): Record<string, unknown> {
  const schema = z.toJSONSchema(planSchema, { target: 'draft-2020-12', io: 'input' });
  const { $schema, ...rest } = schema;
  return {
    $schema,
    $id: 'urn:legroom:plan:1',
    title: 'Legroom plan, version 1',
    description: 'A *.legroom.json file. Lengths in mm, masses in kg, angles in degrees counter-clockwise on the page.',
    ...rest,
  };
}

/** The text of the published file. */
export function planJsonSchemaText(): string {
  return `${JSON.stringify(planJsonSchema(), null, 2)}\n`;
}
