/** The schemas of our files for other programs, as JSON Schema 2020-12. Made from the code's own; `npm run schema` writes them to public/. */
import * as z from 'zod/mini';
import { inventorySchema } from './inventory.ts';
import { planSchema } from './schema.ts';

/**
 * What fields mean, by name: with the name of what holds them where the same name means something else elsewhere.
 * The comments of schema.ts say more.
 */
const MEANINGS: Readonly<Record<string, string>> = {
  'place.xMm': 'To the page’s right, mm. The page’s bottom is the audience; stage left is to the right.',
  'place.yMm': 'Upstage, up the page, mm.',
  'modules.xMm': 'The module’s middle, to the page’s right, mm.',
  'modules.yMm': 'The module’s middle, upstage, mm.',
  'place.headingDeg':
    'Degrees counter-clockwise. An item at 0 faces the audience; a rack at 0 runs from its first leg to the page’s right.',
  'place.heightMm':
    'Playing height above the deck, mm: a drum’s top, a cymbal’s edge plane, a throne’s seat. Left out: the gear’s own.',
  'place.tiltDeg': 'Lowers the edge that is upstage at heading 0, degrees.',
  atMm: 'Along the bar’s centre line from the tube’s own start, mm.',
  socket: 'Which socket of the arm that holds the other piece, from 0.',
  second: 'A double pedal’s second pedal, in the first one’s own frame.',
  legsTurnDeg: 'Turns a tripod’s legs about its tube, degrees.',
  'bars.cutLengthMm': 'Along the centre line, mm; bending keeps it.',
  'bars.overhangMm': 'What stands out beyond the leg at the bar’s start, along the tube, mm.',
  farOverhangMm: 'What the span’s first bar leaves beyond the second leg, along the tube, mm.',
  turnDeg: 'Joint angle against the span before, degrees; 0 for the first span.',
  'bend.radiusMm': 'Bend radius of the centre line, mm.',
  straightEndsMm: 'Length of the straight at each end of a bent tube, mm.',
  side: 'Where the bow lies, seen along the bar from its start.',
  'foot.headingDeg': 'Relative to the rack’s heading, degrees.',
  ratedKPa: 'Rated load of the deck, kN/m²; null: not known.',
  edgeMarginMm: 'Wanted between a contact and the deck’s edge, mm.',
  turnAtMostDeg:
    'How far from facing the audience the best place on the riser may turn the kit, degrees; left out: 15.',
  order: 'Every id of the record beside it, once.',
  clearanceMm: 'Least gap by pair of kinds, such as "pedal+stand", mm; null: not checked.',
  cymbalRoomMm: 'Room above and beneath a cymbal’s edge, by what is there, mm.',
  measured: 'Names of the fields that somebody measured; all others are typical sizes.',
  massKg: 'kg; null: nobody knows it.',
};

type Json = { [key: string]: unknown };

const isObject = (value: unknown): value is Json =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** The same schema with a description at every field that MEANINGS knows. `holder`: the name of what holds the fields. */
function described(schema: unknown, holder: string): unknown {
  if (Array.isArray(schema)) return schema.map((each) => described(each, holder));
  if (!isObject(schema)) return schema;
  const out: Json = {};
  for (const [word, value] of Object.entries(schema)) {
    if (word !== 'properties' || !isObject(value)) {
      out[word] = described(value, holder);
      continue;
    }
    out.properties = Object.fromEntries(
      Object.entries(value).map(([name, field]) => {
        const meaning = MEANINGS[`${holder}.${name}`] ?? MEANINGS[name];
        const inner = described(field, name);
        return [name, meaning && isObject(inner) ? { description: meaning, ...inner } : inner];
      }),
    );
  }
  return out;
}

interface Head {
  readonly $id: string;
  readonly title: string;
  readonly description: string;
}

function published(schema: z.ZodMiniType, head: Head): Record<string, unknown> {
  const { $schema, ...rest } = z.toJSONSchema(schema, { target: 'draft-2020-12', io: 'input' });
  return { $schema, ...head, ...(described(rest, '') as Json) };
}

/** What a schema cannot say (that a mount's rack is there, say) is listed in SPEC.md and told by readPlan(). */
export const planJsonSchema = (): Record<string, unknown> =>
  published(planSchema, {
    $id: 'urn:legroom:plan:1',
    title: 'Legroom plan, version 1',
    description: 'A *.legroom.json file. Lengths in mm, masses in kg, angles in degrees counter-clockwise on the page.',
  });

/** That a part's gear is known and only tubes are cut is told by readInventory(). */
export const inventoryJsonSchema = (): Record<string, unknown> =>
  published(inventorySchema, {
    $id: 'urn:legroom:stock:1',
    title: 'Legroom stock list, version 1',
    description: 'A *.legroom-stock.json file: what somebody owns. Lengths in mm, masses in kg, prices for one.',
  });

/** The published files' names and texts, in public/. */
export function publishedSchemas(): { readonly name: string; readonly text: string }[] {
  return [
    { name: 'legroom.schema.json', schema: planJsonSchema() },
    { name: 'legroom-stock.schema.json', schema: inventoryJsonSchema() },
  ].map(({ name, schema }) => ({ name, text: `${JSON.stringify(schema, null, 2)}\n` }));
}
