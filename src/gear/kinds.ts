/**
 * Kinds of gear: one row a kind, with everything that the rest of the program asks of a kind as such. The schema says what an
 * entry of the kind must hold (schema.ts); here stands what it is.
 *
 * A row is total: a kind that is missing, or a row that lacks an answer, does not compile; what most kinds answer alike stands once,
 * and rows begin with it. A kind that may be placed says how it is
 * laid out and drawn: by a function of its own (`'own'`, and then layout's and drawing's tables, total over those kinds, ask for it),
 * or by what stands here: plain bodies, drawn as their outlines.
 */
import { disc, rectangle, type Swept } from '../geometry/shapes.ts';
import { BODY_KINDS, type BodyKind } from './bodyKinds.ts';
import type { Gear, GearKind, GearOf } from './schema.ts';
import { CYMBAL_USES, DRUM_USES, type Source, STAGE_USES } from './uses.ts';

/** Headings over gear, in the drawer and in lists to choose from; those of pieces in the order a kit is set up. */
export const SHELVES = [
  'Bass drums',
  'Snares',
  'Toms',
  'Floor toms',
  'Hi-hats',
  'Crashes',
  'Rides',
  'Splashes',
  'Chinas',
  'Stacks',
  'Pedals',
  'Thrones',
  'Stands',
  'On the stage',
  'Clamps',
  'Boom arms and posts',
  'L-arms',
  'Tom holders',
  'Links',
  'Tubes',
  'T-feet',
  'Deck modules',
] as const;
type Shelf = (typeof SHELVES)[number];

/** What a part counts as in lists of parts, in their order. */
export const PART_KINDS = [
  'bar',
  'upright',
  'foot',
  'clamp',
  'arm',
  'link',
  'endCap',
  'stand',
  'drum',
  'cymbal',
  'pedal',
  'throne',
] as const;
export type PartKind = (typeof PART_KINDS)[number];

/** End caps are no gear: they are counted under ids that say the tube's outside diameter, `end-cap-38.1mm`. */
export const END_CAP_ID = /^end-cap-\d+(?:\.\d+)?mm$/;
export const endCapId = (outsideMm: number): string => `end-cap-${outsideMm}mm`;

/** In the order of loading in (lists/loadIn.ts). */
export const UNIT_KINDS = ['rack', 'bassDrum', 'pedal', 'drumOrStand', 'cymbalStand', 'throne', 'cymbal'] as const;
export type UnitKind = (typeof UNIT_KINDS)[number];

/** Kinds, and racks, in the order in which names are given their place: what has least choice, the big things that are named in themselves. */
export const NAME_ORDER = ['bassDrum', 'drum', 'throne', 'pedal', 'cymbal', 'stageItem', 'rack', 'stand'] as const;

/** A body of a kind that has no layout of its own, in the piece's own frame: x to its right, y to its back. mm. */
interface PlainBody {
  readonly part: string;
  readonly shape: Swept;
  readonly z: readonly [number, number];
  /** Rests on the deck. */
  readonly floor?: boolean;
  /** It carries the piece's mass, with its centre here. One body of a piece does. */
  readonly centre?: readonly [number, number, number];
}

/** The fields of a kind's entries that are single lengths: what a tape measures. */
type SizeOf<K extends GearKind> = {
  [F in keyof GearOf<K>]: string extends F
    ? never
    : F extends `${string}Mm`
      ? NonNullable<GearOf<K>[F]> extends number
        ? F
        : never
      : never;
}[keyof GearOf<K>];

/** What gear is that stands in a plan as a piece. */
export interface PlacedKind<K extends GearKind> {
  /** What its main body is, for clearances and layers. */
  readonly body: (gear: GearOf<K>) => BodyKind;
  /** `heightMm`: as the plan sets it, else its own; 0 where it has none. */
  readonly bodies: 'own' | ((gear: GearOf<K>, heightMm: number) => readonly PlainBody[]);
  readonly glyph: 'own' | 'outlines';
  /** Words for its sizes, in the order in which they are asked for. */
  readonly sizes: Readonly<Record<SizeOf<K>, string>>;
  /** Words for what it can be set to, in the order in which they are asked for: its ranges of lengths, by their place in the entry. */
  readonly ranges: Readonly<Record<string, string>>;
  /** The largest radius about its place, mm. */
  readonly reachMm: (gear: GearOf<K>) => number;
  /** The height that counts when the plan sets none, mm above the deck; null: it has none to set. */
  readonly ownHeightMm: (gear: GearOf<K>) => number | null;
  /** The heights that it can be set to, standing by itself, mm above the deck; null: nobody says. */
  readonly heightsMm: (gear: GearOf<K>) => readonly [number, number] | null;
  /** What the height is to its user; null: not asked for in a field. */
  readonly heightWord: string | null;
  readonly mayTilt: boolean;
  /** Whether a carrier may be chosen for it. */
  readonly mayHang: boolean;
  /** The arm that is looked for to hold it; null: none is. */
  readonly heldBy: 'lArm' | 'boom' | null;
  /** Nothing but a mount keeps it where it is. */
  readonly mustHang: (gear: GearOf<K>) => boolean;
  /** Links may tie it to a rack. */
  readonly mayBeTied: boolean;
  /** How others stand in it or on it without a part of the plan; null: it carries nothing. */
  readonly carries: {
    /** Where, mm above the deck. */
    readonly atMm: (gear: GearOf<K>, heightMm: number) => number;
    /** The piece itself sits on it and may touch it, not an arm that stands in it. */
    readonly seats: boolean;
  } | null;
  /** Part of the playing layout, which is kept while bases change. */
  readonly isPlayed: (gear: GearOf<K>) => boolean;
  /** Level, turning it about its own axis changes nothing. */
  readonly isRound: (gear: GearOf<K>, isMounted: boolean) => boolean;
  /** What it is on the input list; null: it does not sound. */
  readonly source: (gear: GearOf<K>) => Source | null;
  /** When a unit rooted in it is loaded in. `holds`: whether a part of that kind is in the unit. */
  readonly loadsIn: (gear: GearOf<K>, holds: (part: PartKind) => boolean) => UnitKind;
}

/** A place for another piece's arm. */
export type Socket = GearOf<'platform'>['sockets'][number];

/** What a socket of any arm says of itself. One that is not a platform's holds what may stand on a post. */
export type AnySocket = Pick<Socket, 'name' | 'xMm' | 'yMm' | 'use' | 'takesMm'>;

/** What an arm is: a piece's mount names one. */
interface ArmKind<K extends GearKind> {
  /** Where its sockets are, in the arm's own frame with the post at the origin. Only a platform says; others carry theirs on the post. */
  readonly sockets: (gear: GearOf<K>) => readonly AnySocket[];
  /** It may itself stand in a socket of a platform. */
  readonly fitsSocket: boolean;
  /** Its longest reach is over 0 (SPEC PL-15); null: no such question. */
  readonly longestMm: (gear: GearOf<K>) => number | null;
}

export interface KindOfGear<K extends GearKind> {
  /** With its article, as a drummer says it. */
  readonly word: string;
  readonly shelf: (gear: GearOf<K>) => Shelf;
  /** The parts of a kit that such gear is; none: it is no part of a kit and is not packed with it. */
  readonly counts: readonly PartKind[];
  /** Its outer size as a tape measures it; `mm` writes a length. */
  readonly sizeText: (gear: GearOf<K>, mm: (value: number) => string) => string;
  readonly arm: ArmKind<K> | null;
  readonly placed: PlacedKind<K> | null;
}

const never = () => false;
const always = () => true;
const none = () => null;
const middle = ([low, high]: readonly [number, number]): number => (low + high) / 2;

/**
 * A double pedal's second pedal from its first where the plan does not say: to the player's left, its toe turned out as a left foot
 * is. Its drive shaft is then half-way drawn out. Common practice, no source.
 */
export const SECOND_PEDAL = { xMm: 500, yMm: 40, headingDeg: 10 } as const;

/** A pedal's tower takes up this much of its board's front. Typical (common practice, no source). */
export const TOWER_DEPTH_MM = 60;

/** What a row has that is neither a piece nor an arm, until it says otherwise. */
const PART = { arm: null, placed: null } as const;

/** What most pieces are: played, standing on the deck by themselves, drawn by functions of their own. A row says where it differs. */
const USUAL = {
  bodies: 'own',
  glyph: 'own',
  ranges: {},
  ownHeightMm: none,
  heightsMm: none,
  heightWord: null,
  mayTilt: false,
  mayHang: false,
  heldBy: null,
  mustHang: never,
  mayBeTied: false,
  carries: null,
  isPlayed: always,
  isRound: never,
  source: none,
} as const;

type Round = { readonly diameterMm: number; readonly depthMm: number };
const roundAndDeep = ({ diameterMm, depthMm }: Round, mm: (value: number) => string) =>
  `⌀ ${mm(diameterMm)} × ${mm(depthMm)}`;

/** Booms and L-arms: a post, and an arm from its top. */
const ON_A_POST = {
  counts: ['arm'],
  sizeText: ({ armMm }: Pick<GearOf<'boom'>, 'armMm'>, mm: (value: number) => string) => `arm to ${mm(armMm[1])}`,
  arm: {
    sockets: ({ sockets = 0, socketMm }: Pick<GearOf<'boom'>, 'sockets' | 'socketMm'>): AnySocket[] =>
      Array.from({ length: sockets }, () => ({ xMm: 0, yMm: 0, use: 'rear', takesMm: socketMm })),
    fitsSocket: true,
    longestMm: ({ postMm, armMm }: Pick<GearOf<'boom'>, 'postMm' | 'armMm'>) => postMm[1] + armMm[1],
  },
} as const;

export const KINDS = {
  bassDrum: {
    word: 'a bass drum',
    shelf: () => 'Bass drums',
    counts: ['drum'],
    sizeText: roundAndDeep,
    ...PART,
    placed: {
      ...USUAL,
      body: () => 'bassDrum',
      sizes: { diameterMm: 'Diameter', depthMm: 'Depth', hoopMm: 'Hoop beyond shell' },
      reachMm: ({ diameterMm, depthMm }) => Math.hypot(diameterMm, depthMm) / 2,
      carries: { atMm: ({ diameterMm, hoopMm }) => diameterMm + 2 * hoopMm, seats: false },
      source: () => 'bassDrum',
      loadsIn: () => 'bassDrum',
    },
  },
  drum: {
    word: 'a drum',
    shelf: ({ use }) => DRUM_USES[use].shelf,
    counts: ['drum'],
    sizeText: roundAndDeep,
    ...PART,
    placed: {
      ...USUAL,
      body: ({ use }) => DRUM_USES[use].body,
      sizes: { diameterMm: 'Diameter', depthMm: 'Depth', hoopMm: 'Hoop beyond shell', playHeightMm: 'Playing height' },
      ranges: { 'legs.heightMm': 'Height on its legs' },
      reachMm: ({ diameterMm }) => diameterMm / 2,
      ownHeightMm: ({ playHeightMm }) => playHeightMm,
      heightsMm: ({ legs }) => legs?.heightMm ?? null,
      heightWord: 'Top above deck',
      mayTilt: true,
      mayHang: true,
      heldBy: 'lArm',
      mustHang: ({ use, legs }) => use === 'rackTom' && legs === undefined,
      isRound: ({ legs }, isMounted) => legs === undefined || isMounted,
      source: ({ use }) => DRUM_USES[use].source,
      loadsIn: () => 'drumOrStand',
    },
  },
  cymbal: {
    word: 'a cymbal',
    shelf: ({ use }) => CYMBAL_USES[use].shelf,
    counts: ['cymbal'],
    sizeText: ({ diameterMm }, mm) => `⌀ ${mm(diameterMm)}`,
    ...PART,
    placed: {
      ...USUAL,
      body: () => 'cymbal',
      sizes: { diameterMm: 'Diameter', profileMm: 'Profile', playHeightMm: 'Playing height' },
      reachMm: ({ diameterMm }) => diameterMm / 2,
      ownHeightMm: ({ playHeightMm }) => playHeightMm,
      heightWord: 'Edge above deck',
      mayTilt: true,
      mayHang: true,
      heldBy: 'boom',
      mustHang: always,
      isRound: always,
      source: ({ use }) => CYMBAL_USES[use].source,
      loadsIn: () => 'cymbal',
    },
  },
  pedal: {
    word: 'a pedal',
    shelf: () => 'Pedals',
    counts: ['pedal'],
    sizeText: ({ plateWidthMm, boardLengthMm }, mm) => `${mm(plateWidthMm)} × ${mm(boardLengthMm)}`,
    ...PART,
    placed: {
      ...USUAL,
      body: () => 'pedal',
      sizes: {
        boardLengthMm: 'Board length',
        boardWidthMm: 'Board width',
        plateWidthMm: 'Plate width',
        heightMm: 'Height',
      },
      ranges: { 'shaft.lengthMm': 'Drive shaft' },
      reachMm: ({ boardLengthMm, plateWidthMm }) => Math.hypot(boardLengthMm, plateWidthMm) / 2,
      mayHang: true,
      loadsIn: () => 'pedal',
    },
  },
  throne: {
    word: 'a throne',
    shelf: () => 'Thrones',
    counts: ['throne'],
    sizeText: ({ baseRadiusMm }, mm) => `feet ⌀ ${mm(2 * baseRadiusMm)}`,
    ...PART,
    placed: {
      ...USUAL,
      body: () => 'throne',
      sizes: { widthMm: 'Seat width', depthMm: 'Seat depth', baseRadiusMm: 'Leg reach' },
      ranges: { heightMm: 'Seat height' },
      reachMm: ({ baseRadiusMm, widthMm, depthMm }) => Math.max(baseRadiusMm, widthMm / 2, depthMm / 2),
      ownHeightMm: ({ heightMm }) => middle(heightMm),
      heightsMm: ({ heightMm }) => heightMm,
      heightWord: 'Seat above deck',
      isRound: ({ seat }) => seat === 'round',
      loadsIn: () => 'throne',
    },
  },
  stand: {
    word: 'a stand',
    shelf: () => 'Stands',
    counts: ['stand'],
    sizeText: ({ base }, mm) => (base.form === 'none' ? 'no legs' : `feet ⌀ ${mm(2 * base.radiusMm)}`),
    ...PART,
    placed: {
      ...USUAL,
      body: () => 'stand',
      sizes: { tubeDiameterMm: 'Tube', rodMm: 'Boom rod', rodTubeMm: 'Boom rod diameter' },
      ranges: { heightMm: 'Height', armMm: 'Arm', basketMm: 'Basket' },
      reachMm: ({ base, tubeDiameterMm }) => Math.max(base.radiusMm, tubeDiameterMm),
      ownHeightMm: ({ heightMm }) => middle(heightMm),
      heightsMm: ({ heightMm }) => heightMm,
      heightWord: 'Stand height',
      mayHang: true,
      mayBeTied: true,
      carries: { atMm: (_, heightMm) => heightMm, seats: true },
      isPlayed: ({ board }) => board !== undefined,
      // A hi-hat stand is played with the foot: it is set with the drums.
      loadsIn: ({ board }, holds) =>
        board === undefined && holds('cymbal') && !holds('drum') ? 'cymbalStand' : 'drumOrStand',
    },
  },
  stageItem: {
    word: 'a stage item',
    shelf: () => 'On the stage',
    counts: [],
    sizeText: ({ shape, widthMm, depthMm }, mm) =>
      shape === 'round' ? `⌀ ${mm(widthMm)}` : `${mm(widthMm)} × ${mm(depthMm)}`,
    ...PART,
    placed: {
      ...USUAL,
      body: () => 'stageItem',
      // A microphone's boom and cables are left out: where they go is not in the plan.
      bodies: ({ shape, widthMm, depthMm, heightMm, baseMm, poleMm, heldAtMm }, from) => {
        const base = poleMm === undefined ? heightMm : Math.min(baseMm ?? heightMm, heightMm);
        const outline: PlainBody = {
          part: 'outline',
          shape: shape === 'round' ? disc(0, 0, Math.max(widthMm, depthMm) / 2) : rectangle(0, 0, widthMm, depthMm, 0),
          z: [from, from + base],
          floor: heldAtMm === undefined,
          centre: [0, 0, from + heightMm / 2],
        };
        if (poleMm === undefined || base >= heightMm) return [outline];
        return [outline, { part: 'pole', shape: disc(0, 0, poleMm / 2), z: [from + base, from + heightMm] }];
      },
      sizes: {
        widthMm: 'Width',
        depthMm: 'Depth',
        heightMm: 'Height',
        baseMm: 'Base height',
        poleMm: 'Pole',
        heldAtMm: 'Held at',
      },
      reachMm: ({ widthMm, depthMm }) => Math.hypot(widthMm, depthMm) / 2,
      ownHeightMm: ({ heldAtMm }) => heldAtMm ?? null,
      isPlayed: never,
      source: ({ use }) => STAGE_USES[use].source,
      loadsIn: () => 'drumOrStand',
    },
  },
  tube: {
    word: 'a tube',
    shelf: () => 'Tubes',
    counts: ['bar', 'upright'],
    sizeText: ({ outsideMm, cutLengthMm, bendRadiusMm }, mm) =>
      `⌀ ${mm(outsideMm)} × ${mm(cutLengthMm)}${bendRadiusMm === undefined ? '' : ', curved'}`,
    ...PART,
  },
  foot: {
    word: 'a foot',
    shelf: () => 'T-feet',
    counts: ['foot'],
    sizeText: ({ lengthMm }, mm) => mm(lengthMm),
    ...PART,
  },
  clamp: {
    word: 'a clamp',
    shelf: () => 'Clamps',
    counts: ['clamp'],
    sizeText: ({ widthMm }, mm) => `${mm(widthMm)} of tube`,
    ...PART,
  },
  boom: {
    ...PART,
    word: 'a boom',
    shelf: () => 'Boom arms and posts',
    ...ON_A_POST,
  },
  lArm: {
    ...PART,
    word: 'an L-arm',
    shelf: () => 'L-arms',
    ...ON_A_POST,
  },
  platform: {
    ...PART,
    word: 'a tom holder',
    shelf: () => 'Tom holders',
    counts: ['arm'],
    sizeText: ({ sockets }) => `${sockets.length} sockets`,
    arm: { sockets: ({ sockets }) => sockets, fitsSocket: false, longestMm: none },
  },
  link: {
    ...PART,
    word: 'a link',
    shelf: () => 'Links',
    counts: ['link'],
    sizeText: ({ lengthMm }, mm) => `to ${mm(lengthMm[1])}`,
    arm: { sockets: () => [], fitsSocket: false, longestMm: ({ lengthMm }) => lengthMm[1] },
  },
  deck: {
    word: 'a deck module',
    shelf: () => 'Deck modules',
    counts: [],
    sizeText: ({ widthMm, depthMm }, mm) => `${mm(widthMm)} × ${mm(depthMm)}`,
    ...PART,
  },
} as const satisfies { readonly [K in GearKind]: KindOfGear<K> };

type Rows = typeof KINDS;

export type PlaceableKind = { [K in GearKind]: Rows[K]['placed'] extends null ? never : K }[GearKind];
export type Placeable = GearOf<PlaceableKind>;
type ArmGearKind = { [K in GearKind]: Rows[K]['arm'] extends null ? never : K }[GearKind];
export type ArmGear = GearOf<ArmGearKind>;
/** Arms that may stand in a socket of a platform. */
type SocketArmKind = { [K in ArmGearKind]: Rows[K]['arm'] extends { fitsSocket: true } ? K : never }[ArmGearKind];
export type SocketArm = GearOf<SocketArmKind>;
/** Kinds that layout, and kinds that drawing, have a function of their own for. */
export type OwnBodied = {
  [K in PlaceableKind]: Rows[K]['placed'] extends { bodies: 'own' } ? K : never;
}[PlaceableKind];
export type OwnGlyphed = {
  [K in PlaceableKind]: Rows[K]['placed'] extends { glyph: 'own' } ? K : never;
}[PlaceableKind];

/** In the order of the table. */
export const GEAR_KINDS = Object.keys(KINDS) as readonly GearKind[];

/** The row of a piece of gear. The one place where a row is matched with its gear: both are picked by the same kind. */
export const kindOf = <K extends GearKind>(gear: GearOf<K>): KindOfGear<K> =>
  KINDS[gear.kind as K] as unknown as KindOfGear<K>;

/** What a placeable piece of gear is as a piece; null for tubes, clamps, arms, links and decks. */
export const placedKind = <K extends PlaceableKind>(gear: GearOf<K>): PlacedKind<K> =>
  kindOf(gear as GearOf<K>).placed as PlacedKind<K>;

export const isPlaceable = (gear: Gear): gear is Placeable => kindOf(gear).placed !== null;
export const isArm = (gear: Gear | undefined): gear is ArmGear => gear !== undefined && kindOf(gear).arm !== null;
export const isSocketArm = (gear: Gear | undefined): gear is SocketArm =>
  gear !== undefined && kindOf(gear).arm?.fitsSocket === true;

/** Kinds of gear that a rule or a list speaks of. */
export const PLACEABLE_KINDS = GEAR_KINDS.filter((kind) => KINDS[kind].placed !== null);
export const ARM_KINDS = GEAR_KINDS.filter((kind) => KINDS[kind].arm !== null);
export const SOCKET_ARM_KINDS = GEAR_KINDS.filter((kind) => KINDS[kind].arm?.fitsSocket);

/** Whether it is a part of a kit: packed, counted and owned. */
export const isPart = (gear: Gear): boolean => kindOf(gear).counts.length > 0;

/** What the gear asks of its placed kind; null for gear that is never a piece. */
const asPlaced = <T>(
  gear: Gear | undefined,
  ask: (placed: PlacedKind<PlaceableKind>, gear: Placeable) => T,
): T | null => (gear !== undefined && isPlaceable(gear) ? ask(placedKind(gear), gear) : null);

/** The height that counts when the plan sets none, mm above the deck. Null: the gear has none to set. */
export const ownHeightMm = (gear: Gear | undefined): number | null =>
  asPlaced(gear, (placed, piece) => placed.ownHeightMm(piece));

/** The height of a piece: as its place sets it, else its own. Null: the gear has none to set. */
export function heightMmIn(place: { readonly heightMm?: number | undefined }, gear: Gear | undefined): number | null {
  const own = ownHeightMm(gear);
  return own === null ? null : (place.heightMm ?? own);
}

/** Beside the kit: in none of its measures, lists of parts and elevations. */
export const isBesideKit = (gear: Gear | undefined): boolean =>
  asPlaced(gear, (placed, piece) => BODY_KINDS[placed.body(piece)].role === 'stage') ?? false;

/** Drawing has a glyph of its own for it; else its bodies' outlines are drawn. */
export const hasGlyph = (gear: Gear): gear is GearOf<OwnGlyphed> => kindOf(gear).placed?.glyph === 'own';

/** What it is on the input list; null: it does not sound. */
export const sourceOf = (gear: Gear): Source | null => asPlaced(gear, (placed, piece) => placed.source(piece));

/** How others stand in it or on it; null: they do not. */
export const carrying = (gear: Gear | undefined): PlacedKind<PlaceableKind>['carries'] =>
  asPlaced(gear, ({ carries }) => carries);

export const mustHang = (gear: Gear): boolean => asPlaced(gear, (placed, piece) => placed.mustHang(piece)) ?? false;

/** How many sockets an arm or a platform offers to other arms. */
export const socketsOf = (arm: ArmGear): readonly AnySocket[] => kindOf(arm).arm?.sockets(arm) ?? [];

/** A socket as it is spoken of: "left socket" where it has a name, else by its number from 1. */
export function socketWord(arm: ArmGear | undefined, socket: number): string {
  const name = arm && socketsOf(arm)[socket]?.name;
  return name === undefined ? `socket ${socket + 1}` : `${name} socket`;
}

/** A length of an entry with its word. */
export interface SizeField {
  readonly field: string;
  readonly word: string;
  readonly value: number;
}

/** The sizes of a piece of gear that a tape measures, as its entry has them: optional ones that it lacks are left out. */
export function sizeFields(gear: Placeable): SizeField[] {
  const values = gear as unknown as Readonly<Record<string, number | undefined>>;
  return Object.entries<string>(placedKind(gear).sizes).flatMap(([field, word]) => {
    const value = values[field];
    return value === undefined ? [] : [{ field, word, value }];
  });
}

/** Two lengths between which something can be set, with its word. `field`: where it is in the entry, `legs.heightMm`. */
export interface RangeField {
  readonly field: string;
  readonly word: string;
  readonly value: readonly [number, number];
}

/** The ranges of a piece of gear that a tape measures, as its entry has them. */
export function rangeFields(gear: Placeable): RangeField[] {
  return Object.entries(placedKind(gear).ranges).flatMap(([field, word]) => {
    const value = field
      .split('.')
      .reduce<unknown>((at, key) => (at as Record<string, unknown> | undefined)?.[key], gear);
    return Array.isArray(value) ? [{ field, word, value: value as [number, number] }] : [];
  });
}

/** The word for a field that somebody measured. */
export const sizeWord = (gear: Placeable, field: string): string =>
  field === 'massKg'
    ? 'mass'
    : (
        (placedKind(gear).sizes as Readonly<Record<string, string>>)[field] ??
        placedKind(gear).ranges[field] ??
        field
      ).toLowerCase();
