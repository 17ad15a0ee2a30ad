/** The user's own words on parts, in fields: prices and notes in the plan, and the lines of a stock list. */
import { type Inventory, inventorySchema, type OwnedPart } from '../../../plan/inventory.ts';
import { planSchema } from '../../../plan/schema.ts';
import { schemaAt } from '../fields/bounds.ts';
import type { FieldTable, Row } from '../fields/rows.ts';

/** `what`: the part, for whoever hears the fields' names. */
interface Named {
  readonly what: string;
}

const priceRows = <T extends Named>(): readonly Row<T>[] => [
  { path: 'price', label: ({ what }) => `Price for one: ${what}` },
  { as: 'words', path: 'note', label: ({ what }) => `Note: ${what}` },
];

export interface PartHere extends Named {
  readonly gear: string;
  readonly own: { readonly price?: number; readonly note?: string };
}

export const PART = {
  schema: schemaAt(planSchema, 'partNotes'),
  record: ({ own }) => own,
  write: ({ gear }, [field], value) => ({ type: 'setPartNote', part: gear, set: { [field]: value } }),
  sections: { price: priceRows<PartHere>() },
} satisfies FieldTable<PartHere>;

/** A line of the stock list. `tubeMm`: the cut length that its gear has by itself; undefined for what is no tube. */
export interface OwnedHere extends Named {
  readonly part: OwnedPart;
  readonly tubeMm: number | undefined;
  readonly put: (change: Partial<OwnedPart>) => void;
}

export const OWNED = {
  schema: schemaAt(inventorySchema, 'parts'),
  record: ({ part }) => part,
  write: ({ put }, [field], value) => {
    put({ [field]: value ?? undefined });
    return null;
  },
  isOwn: true,
  sections: {
    count: [{ path: 'count', label: ({ what }) => `How many: ${what}` }],
    cut: [
      {
        path: 'cutLengthMm',
        label: ({ what }) => `Cut length: ${what}`,
        when: ({ tubeMm }) => tubeMm !== undefined,
        otherwise: ({ tubeMm }) => tubeMm ?? null,
      },
    ],
    price: priceRows<OwnedHere>(),
  },
} satisfies FieldTable<OwnedHere>;

export interface StockHere {
  readonly stock: Inventory;
  readonly take: (next: Inventory) => void;
}

export const STOCK = {
  schema: inventorySchema,
  record: ({ stock }) => stock,
  write: ({ stock, take }, [field], value) => {
    const { [field]: _, ...rest } = stock;
    take((value === null ? rest : { ...stock, [field]: value }) as Inventory);
    return null;
  },
  isOwn: true,
  sections: {
    list: [
      { as: 'words', path: 'name', label: 'Name of the list' },
      { as: 'words', path: 'currency', label: 'Prices are in', placeholder: 'EUR' },
    ],
  },
} satisfies FieldTable<StockHere>;
