/** How a piece is held, in fields: on what, where along it, by which clamp and which arm; and the links that tie a stand to a rack. */
import { clampsFor, holdsArms, takes } from '../../../gear/fits.ts';
import { type ArmGear, isArm, isSocketArm, socketWord } from '../../../gear/kinds.ts';
import type { Gear, GearOf } from '../../../gear/schema.ts';
import { carrierPiece, legOf, tubeUnder } from '../../../plan/carriers.ts';
import type { Command } from '../../../plan/commands/index.ts';
import { type Carrier, type Mount, type Piece, planSchema, type Tie } from '../../../plan/schema.ts';
import { type Bounds, schemaAt } from '../fields/bounds.ts';
import { type Change, type Choice, type FieldTable, NONE, patched, type Row } from '../fields/rows.ts';
import { gearChoices, orNone } from '../shared/gearChoices.ts';
import { carrierChoices, carrierFrom, carrierKey, ON_DECK, socketsAt } from './carriers.ts';
import { type ItemHere, type OneItem, setItem } from './pieceFields.ts';

/** `all`: the gear that there is. */
export interface MountHere extends ItemHere {
  readonly all: readonly Gear[];
}

const GONE: Change = { refusal: 'That is not in this setup any more.' };
const holderOf = ({ setup }: MountHere, carrier: Carrier): Piece | undefined => setup.pieces[carrierPiece(carrier)];

/** No clamp goes beyond the end of the tube that it is on. */
function onTube(here: MountHere, carrier: Carrier | undefined): Bounds {
  const rack = carrier && holderOf(here, carrier);
  if (rack?.kind !== 'rack') return {};
  if (carrier?.on === 'leg') return { most: rack.legs.find(({ id }) => id === carrier.leg)?.lengthMm };
  const bars = rack.spans.flatMap((span) => span.bars);
  return carrier?.on === 'bar' ? { most: bars.find(({ id }) => id === carrier.bar)?.cutLengthMm } : {};
}

/** Where on its carrier: along a bar, up a leg, in which socket. */
function carrierRows<T extends MountHere>(
  path: string,
  carrierOf: (here: T) => Carrier | undefined,
  put: (here: T, carrier: Carrier) => Change,
): Row<T>[] {
  const is = (on: Carrier['on']) => (here: T) => carrierOf(here)?.on === on;
  const bounds = (here: T) => onTube(here, carrierOf(here));
  return [
    { path: `${path}.bar.atMm`, label: 'Along the bar', when: is('bar'), bounds },
    { path: `${path}.leg.heightMm`, label: 'Up the leg', when: is('leg'), bounds },
    {
      as: 'choice',
      path: `${path}.socket.socket`,
      label: 'Socket',
      when: is('socket'),
      value: (here) => String((carrierOf(here) as Carrier & { on: 'socket' }).socket),
      choices: (here) => {
        const carrier = carrierOf(here) as Carrier & { on: 'socket' };
        const holder = holderOf(here, carrier);
        const words = holder?.kind === 'item' ? socketsAt(here.plan, holder) : [];
        return Array.from({ length: Math.max(words.length, carrier.socket + 1) }, (_, n) => {
          const word = words[n] ?? socketWord(undefined, n);
          return { id: String(n), label: word[0].toUpperCase() + word.slice(1) };
        });
      },
      set: (here, id) => put(here, { ...(carrierOf(here) as Carrier & { on: 'socket' }), socket: Number(id) }),
    },
  ];
}

const some = (all: readonly Gear[], id: string | null | undefined, fits: (gear: Gear) => boolean): boolean =>
  all.some((one) => one.id === id && fits(one));
const isPlatform = ({ kind }: Gear): boolean => kind === 'platform';

export const setMount = (here: OneItem, mount: Mount | null): Command => setItem(here, { mount });

/** The clamp that there is where it fits the tube and the arm, else the first that does; on what is no tube none. */
function clampFor({ plan, setup, all, item }: MountHere, carrier: Carrier, arm: ArmGear | null): string | null {
  const tube = tubeUnder(plan, setup, carrier);
  if (tube === null) return null;
  const some = arm
    ? clampsFor(all, tube.outsideMm, arm)
    : all.filter(holdsArms).filter(({ tubeMm }) => takes(tubeMm, tube.outsideMm));
  const now = item.mount?.clamp ?? null;
  return some.some(({ id }) => id === now) ? now : (some[0]?.id ?? now);
}

/** No clamp: on a leg the arm goes into its open top. */
function takeClamp(here: MountHere, chosen: string): Change {
  const mount = here.item.mount!;
  const leg = legOf(here.setup, mount.carrier);
  if (chosen !== NONE || mount.carrier.on !== 'leg' || !leg)
    return setMount(here, { ...mount, clamp: chosen === NONE ? null : chosen });
  return setMount(here, { ...mount, clamp: null, carrier: { ...mount.carrier, heightMm: leg.lengthMm } });
}

/** Held by something else: a bar or a leg needs a clamp, and a first guess is better than none. Stands and drums hold without. */
function hold(here: MountHere, key: string): Change {
  const { all, plan, setup, item } = here;
  if (key === ON_DECK) return setMount(here, null);
  const carrier = carrierFrom(key, plan, setup, item);
  if (carrier === null) return GONE;
  const arm = item.mount?.arm ?? null;
  const clamp = clampFor(here, carrier, all.filter(isArm).find(({ id }) => id === arm) ?? null);
  return setMount(here, { ...item.mount, carrier, clamp, arm });
}

/** Another arm. What held the piece until now goes into a platform's socket. */
function takeArm(here: MountHere, chosen: string): Change {
  const { platformArm, ...bare } = here.item.mount!;
  const arm = chosen === NONE ? null : chosen;
  const known = here.all.filter(isArm).find(({ id }) => id === arm) ?? null;
  // Without a clamp on a leg it stands in the leg's open top, and stays there.
  if (bare.clamp !== null) bare.clamp = clampFor(here, bare.carrier, known) ?? bare.clamp;
  if (!some(here.all, arm, isPlatform)) return setMount(here, { ...bare, arm });
  const held = some(here.all, bare.arm, isSocketArm) ? bare.arm : null;
  return setMount(here, { ...bare, arm, platformArm: platformArm ?? held });
}

/** Only beside a tube has an arm two sides to pass on: a stand's too, where a clamp holds it; a stand's own boom starts from its axis. */
const hasSides = ({ carrier: { on }, clamp, arm }: Mount): boolean =>
  arm !== null && (on === 'bar' || on === 'leg' || (on === 'piece' && clamp !== null));

/** Of a bar as one goes along it, of a leg or a stand as one looks from it to the piece. */
const sidesOf = ({ on }: Carrier): Choice[] => {
  const seen =
    on === 'bar' ? 'of the bar, from its start' : `of the ${on === 'leg' ? 'leg' : 'stand'}, towards the piece`;
  return [
    { id: NONE, label: 'Where it has most room' },
    { id: 'left', label: `Left ${seen}` },
    { id: 'right', label: `Right ${seen}` },
  ];
};

/** The side is kept whatever arm or clamp comes next. */
function passOn(here: MountHere, chosen: string): Change {
  const { side: _, ...mount } = here.item.mount!;
  return setMount(here, chosen === 'left' || chosen === 'right' ? { ...mount, side: chosen } : mount);
}

const isHeld = ({ item }: MountHere): boolean => item.mount !== null;

/** What a piece is held by may be changed while it is locked: it stays where it is. */
export const MOUNT = {
  schema: schemaAt(planSchema, 'setups.pieces.item'),
  record: ({ item }) => item,
  write: (here, keys, value) => setMount(here, patched(here.item, keys, value).mount as Mount),
  sections: {
    heldBy: [
      {
        as: 'choice',
        path: 'mount',
        label: 'Carried by',
        value: ({ item }) => (item.mount === null ? ON_DECK : carrierKey(item.mount.carrier)),
        choices: ({ plan, setup, item }) => [
          { id: ON_DECK, label: 'Stands on the deck' },
          ...carrierChoices(plan, setup, item),
        ],
        set: hold,
      },
      ...carrierRows<MountHere>(
        'mount.carrier',
        ({ item }) => item.mount?.carrier,
        (here, carrier) => setMount(here, { ...here.item.mount!, carrier }),
      ),
      {
        as: 'choice',
        path: 'mount.clamp',
        label: 'Clamp',
        when: isHeld,
        choices: ({ all, item }) =>
          orNone(
            gearChoices(all, holdsArms, item.mount!.clamp),
            item.mount!.carrier.on === 'leg' ? "None: in the leg's open top" : 'No clamp',
          ),
        set: takeClamp,
      },
      {
        as: 'choice',
        path: 'mount.arm',
        label: 'Arm',
        when: isHeld,
        choices: ({ all, item }) => orNone(gearChoices(all, isArm, item.mount!.arm), 'No arm'),
        set: takeArm,
      },
      {
        as: 'choice',
        path: 'mount.platformArm',
        label: 'Arm in the tom holder',
        when: ({ all, item }) => some(all, item.mount?.arm, isPlatform),
        choices: ({ all, item }) => orNone(gearChoices(all, isSocketArm, item.mount!.platformArm ?? null), 'No arm'),
      },
      {
        as: 'choice',
        path: 'mount.side',
        label: 'Passes',
        when: ({ item }) => item.mount !== null && hasSides(item.mount),
        value: ({ item }) => item.mount?.side ?? NONE,
        choices: ({ item }) => sidesOf(item.mount!.carrier),
        set: passOn,
      },
    ],
  },
} satisfies FieldTable<MountHere>;

/** One link of a stand; `tubes`: what it may be clamped to. */
export interface TieHere extends MountHere {
  readonly tie: Tie;
  readonly at: number;
  readonly tubes: readonly Choice[];
}

export const setTies = (here: OneItem, ties: readonly Tie[]): Command =>
  setItem(here, { ties: ties.length === 0 ? null : ties });
const putTie = (here: TieHere, change: Partial<Tie>): Command =>
  setTies(here, here.item.ties!.with(here.at, { ...here.tie, ...change }));
const isLink = (gear: Gear): gear is GearOf<'link'> => gear.kind === 'link';

export const TIE = {
  schema: schemaAt(planSchema, 'setups.pieces.item.ties'),
  record: ({ tie }) => tie,
  write: (here, keys, value) => putTie(here, patched(here.tie, keys, value)),
  sections: {
    link: [
      {
        as: 'choice',
        path: 'carrier',
        label: 'To',
        value: ({ tie }) => carrierKey(tie.carrier),
        choices: ({ tubes }) => tubes,
        set: (here, key) => {
          const carrier = carrierFrom(key, here.plan, here.setup, here.item);
          return carrier === null ? GONE : putTie(here, { carrier });
        },
      },
      ...carrierRows<TieHere>(
        'carrier',
        ({ tie }) => tie.carrier,
        (here, carrier) => putTie(here, { carrier }),
      ),
      { path: 'heightMm', label: 'Height at the stand' },
      { as: 'choice', path: 'link', label: 'Link', choices: ({ all, tie }) => gearChoices(all, isLink, tie.link) },
      {
        as: 'choice',
        path: 'clamp',
        label: 'Clamp',
        choices: ({ all, tie }) => orNone(gearChoices(all, holdsArms, tie.clamp), 'No clamp'),
      },
    ],
  },
} satisfies FieldTable<TieHere>;
