/** Writes the published JSON Schema of a plan: public/legroom.schema.json. Run by `npm run schema`. */
import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { planJsonSchemaText } from '../src/plan/jsonSchema.ts';

const target = fileURLToPath(new URL('../public/legroom.schema.json', import.meta.url));
writeFileSync(target, planJsonSchemaText());
console.log('Wrote public/legroom.schema.json');
