/** How a piece is held, in fields: on what, where along it, by which clamp and which arm; and the links that tie a stand to a rack. */
import { isArm, isSocketArm, socketWord } from '../../../gear/kinds.ts';
import type { Gear, GearOf } from '../../../gear/schema.ts';
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

/** Joints and collars hold tubes, not arms. */
const holdsArms = (gear: Gear): boolean => gear.kind === 'clamp' && (gear.use === 'arm' || gear.use === 'swivel');

const GONE: Change = { refusal: 'That is not in this setup any more.' };
const holderOf = ({ setup }: MountHere, carrier: Carrier): Piece | undefined =>
  setup.pieces[carrier.on === 'bar' || carrier.on === 'leg' ? carrier.rack : carrier.piece];

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

/** Held by something else: a bar or a leg needs a clamp, and a first guess is better than none. Stands and drums hold without. */
function hold(here: MountHere, key: string): Change {
  const { all, setup, item } = here;
  if (key === ON_DECK) return setMount(here, null);
  const carrier = carrierFrom(key, setup, item);
  if (carrier === null) return GONE;
  const first = () => all.find((one) => one.kind === 'clamp' && one.use === 'arm')?.id ?? null;
  const clamp = carrier.on === 'bar' || carrier.on === 'leg' ? (item.mount?.clamp ?? first()) : null;
  return setMount(here, { ...item.mount, carrier, clamp, arm: item.mount?.arm ?? null });
}

/** Another arm. What held the piece until now goes into a platform's socket. */
function takeArm(here: MountHere, chosen: string): Change {
  const { platformArm, ...bare } = here.item.mount!;
  const arm = chosen === NONE ? null : chosen;
  if (!some(here.all, arm, isPlatform)) return setMount(here, { ...bare, arm });
  const held = some(here.all, bare.arm, isSocketArm) ? bare.arm : null;
  return setMount(here, { ...bare, arm, platformArm: platformArm ?? held });
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
        choices: ({ all, item }) => orNone(gearChoices(all, holdsArms, item.mount!.clamp), 'No clamp'),
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
        label: 'Arm in the platform',
        when: ({ all, item }) => some(all, item.mount?.arm, isPlatform),
        choices: ({ all, item }) => orNone(gearChoices(all, isSocketArm, item.mount!.platformArm ?? null), 'No arm'),
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
          const carrier = carrierFrom(key, here.setup, here.item);
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
