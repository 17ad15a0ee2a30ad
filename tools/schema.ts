/** Writes the published JSON Schemas of our files into public/. Run by `npm run schema`. */
import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { publishedSchemas } from '../src/plan/jsonSchema.ts';

for (const { name, text } of publishedSchemas()) {
  writeFileSync(fileURLToPath(new URL(`../public/${name}`, import.meta.url)), text);
  console.log(`Wrote public/${name}`);
}
