/**
 * The playing layout of a starter kit, for a right-handed drummer: throne, pedals where the feet are, drums and cymbals within reach.
 *
 * The throne's middle is the origin, the drummer faces -y and has +x to the left. Distances that reach decides grow with arm and stick,
 * those that seat decides with the seat's height; those of drums beside drums are the drums' own. Pedals come where the knee has
 * PEDAL_KNEE_DEG, heel down.
 *
 * Units:  mm, degrees.
 * Source: places, tilts and heights are those of the samples, for a man of the middle: common practice, no source.
 */
import { figureOf } from '../../drummer/figure.ts';
import type { Sizes } from '../../drummer/sizes.ts';
import { gearOf } from '../../gear/catalogue.ts';
import { tidyDeg } from '../../plan/numbers.ts';
import type { Item, Place } from '../../plan/schema.ts';
import { toDegrees, toRadians } from '../../units.ts';
import type { Trial } from './trial.ts';
import type { StarterWish } from './wish.ts';

/** Arm to grip and a stick of the man of the middle, for whom the places are given. */
const USUAL_REACH_MM = 684 + 406;
/** The knee with the foot on its pedal: most sit with a little more than a right angle. Common practice, no source. */
const PEDAL_KNEE_DEG = 119;
const HAT_KNEE_DEG = 110;
/** The seat above the hollow of the knee, so that the thighs fall a little. Common practice, no source. */
const SEAT_ABOVE_POPLITEAL_MM = 45;
/** Wanted in plan between what hangs side by side, so that each can swing. Above every limit of checks/limits.ts. */
const BESIDE_MM = 32;
/** The snare's middle behind the middle of the pedal. */
const SNARE_BEHIND_PEDAL_MM = 95;
/** Beside a second pedal a leg of its stand is between the boards; where it is not clear there, one is under the shaft. */
const SNARE_BETWEEN_PEDALS_MM = 70;
const SNARE_BACK_MM = [0, 60, 115] as const;
/** A cymbal well above another may be over its edge. */
const OVER_MM = 150;
const OVER_EDGE_MM = 50;
/** All turns of three legs that differ, those that pass beside the feet first. */
const SNARE_TURNS_DEG = [-37, -55, -49, -43, 53, 59, -31, -25, 47, 41, 35, -19, -13, -7, 29, 23, 17, 11, 5, -1];
/** The second pedal, as seen from its hip. */
const SECOND_DEG = 15;
const SECOND_HEADING_DEG = 10;
/** Between two toms. */
const TOM_GAP_MM = 24;

/** A place as seen from a point: `deg` from straight ahead, to the drummer's left. */
interface Polar {
  readonly deg: number;
  readonly r: number;
}

const at = ({ deg, r }: Polar, [x, y]: readonly [number, number] = [0, 0]): [number, number] => [
  x + r * Math.sin(toRadians(deg)),
  y - r * Math.cos(toRadians(deg)),
];

const round = (value: number): number => Math.round(value);

const THRONE = 'throne';
export const BASS = 'bass';
const PEDAL = 'pedal';
const SNARE = 'snare';
const SNARE_STAND = 'snare-stand';
const HATS = 'hi-hats';
export const HAT_STAND = 'hi-hat-stand';

/** What is wanted of a disc's neighbours in plan. */
interface Disc {
  readonly x: number;
  readonly y: number;
  readonly r: number;
}

const gapOf = (a: Disc, b: Disc): number => Math.hypot(a.x - b.x, a.y - b.y) - a.r - b.r;

export function itemOf(id: string, name: string, gear: string, place: Place, more: Partial<Item> = {}): Item {
  const { xMm, yMm, headingDeg, ...rest } = place;
  return {
    kind: 'item',
    id,
    name,
    gear,
    place: { xMm: round(xMm), yMm: round(yMm), headingDeg: tidyDeg(round(headingDeg)), ...rest },
    mount: null,
    ...more,
  };
}

/** Low edge towards the drummer. */
const facing = (x: number, y: number): number => toDegrees(Math.atan2(x, -y));

export interface Playing {
  readonly toms: readonly string[];
  readonly floorToms: readonly string[];
  /** Without the hi-hats. */
  readonly cymbals: readonly string[];
  /** Of the bass drum: its middle line, its front, its radius, hoop and all. */
  readonly bass: { readonly x: number; readonly frontY: number; readonly r: number };
}

const TOM_GEAR = [['tom-12x8'], ['tom-10x7', 'tom-12x8'], ['tom-10x7', 'tom-12x8', 'tom-13x9']] as const;
/** The middle of the row, from straight ahead. Over the bass drum: one is left of its middle, two are on either side of it, three begin before the drummer's left. */
const CENTRED_DEG = [2, null, null] as const;
const OFFSET_DEG = [16, 16, 17] as const;
const FLOOR_GEAR = ['floor-tom-14x14', 'floor-tom-16x16', 'floor-tom-18x16'] as const;
const FLOOR_NAMES = ['Floor tom 14', 'Floor tom 16', 'Floor tom 18'] as const;
/** Right of the throne's middle and ahead of it, for one or two, and for three. */
const FLOOR_PLACES = [
  [
    [-510, -400],
    [-600, 30],
  ],
  [
    [-590, -540],
    [-700, -120],
    [-660, 365],
  ],
] as const;

function throneGear(seat: number): string {
  return seat < 455 ? 'throne-round-low' : 'throne-round';
}

const bassGear = (seat: number): string => (seat < 440 ? 'bass-18x14' : seat < 475 ? 'bass-20x16' : 'bass-22x18');

const FLOOR_OUT_MM = [0, 20, 40, 60, 80] as const;

interface Sized {
  readonly diameterMm: number;
  readonly depthMm: number;
  readonly hoopMm: number;
}

/** Puts the playing layout into an empty kit, the snare and the hi-hats on their stands. */
export function putPlaying(kit: Trial, wish: StarterWish, sizes: Sizes): Playing {
  const k = (sizes.armMm + sizes.stickMm) / USUAL_REACH_MM;
  const seat = 5 * Math.round((sizes.poplitealMm + sizes.shoeMm + SEAT_ABOVE_POPLITEAL_MM) / 5);
  const shoulder = seat + sizes.shoulderMm;
  const sized = (id: string): Sized => gearOf(kit.plan.gear, id) as unknown as Sized;
  const radius = (id: string) => sized(id).diameterMm / 2 + (sized(id).hoopMm ?? 0);
  kit.put(itemOf(THRONE, 'Throne', throneGear(seat), { xMm: 0, yMm: 0, headingDeg: 0, heightMm: seat }));

  // The bass drum before the right foot.
  const isDouble = wish.pedal === 'double';
  const bassX = round(
    -sizes.hipMm / 4 -
      (wish.toms === 'offset' && wish.up === 3 ? 165 : isDouble || wish.toms === 'offset' ? 130 : 100) * k,
  );
  const pedalGear = isDouble ? 'pedal-double' : 'pedal-single';
  const pedalAt = (y: number): Item =>
    itemOf(PEDAL, isDouble ? 'Double pedal' : 'Pedal', pedalGear, { xMm: bassX, yMm: y, headingDeg: 0 });
  const hatAt = (deg: number, r: number): Item => {
    const [xMm, yMm] = at({ deg, r }, [sizes.hipMm / 4, 0]);
    return itemOf(HAT_STAND, 'Hi-hat stand', wish.base === 'stands' ? 'stand-hi-hat-tripod' : 'stand-hi-hat-two-leg', {
      xMm,
      yMm,
      headingDeg: deg,
    });
  };
  /** How far a pedal is with a wanted angle of the knee: a straighter leg reaches farther. */
  const farFor = (wanted: number, put: (far: number) => Item, board: string): number => {
    let [near, far] = [250, 1200];
    for (let turn = 0; turn < 14; turn++) {
      const middle = (near + far) / 2;
      const trial = put(middle);
      const pieces = { [THRONE]: kit.item(THRONE), [trial.id]: trial };
      const figure = figureOf(kit.plan, { ...kit.setup, pieces, order: [THRONE, trial.id] });
      const leg = figure?.legs.find(({ works }) => works?.piece === trial.id && works.board === board);
      if (leg && toDegrees(leg.down.kneeRad) > wanted) far = middle;
      else near = middle;
    }
    return round(near);
  };
  const pedalY = -farFor(PEDAL_KNEE_DEG, (far) => pedalAt(-far), 'first');
  const bass = sized(bassGear(seat));
  const bassR = radius(bassGear(seat));
  const pedal = gearOf(kit.plan.gear, pedalGear);
  const batterY = pedalY - (pedal?.kind === 'pedal' ? pedal.boardLengthMm / 2 : 150) - 42;
  const bassY = batterY - bass.depthMm / 2;
  const inches = round(bass.diameterMm / 25.4);
  kit.put(itemOf(BASS, `Bass drum ${inches}`, bassGear(seat), { xMm: bassX, yMm: bassY, headingDeg: 0 }));

  // Snare between the knees, toms in a row ahead of it.
  const snareY = pedalY + (isDouble ? SNARE_BETWEEN_PEDALS_MM : SNARE_BEHIND_PEDAL_MM);
  const [secondX, secondY] = at({ deg: SECOND_DEG, r: -pedalY }, [sizes.hipMm / 4, 0]);
  const snareX = isDouble ? (bassX + secondX) / 2 : 30 * k;
  const snareGear = 'snare-14x5.5';
  const snareTop = seat + 150;
  const snare: Disc = { x: snareX, y: snareY, r: radius(snareGear) };
  const gears = TOM_GEAR[wish.up - 1];
  const centre: [number, number] = [0, -250 * k];
  const ring = Math.max(710 * k, snare.r + Math.max(...gears.map(radius)) + 20 - (snareY - centre[1]));
  const pitches = gears
    .slice(1)
    .map((gear, i) => toDegrees(2 * Math.asin((radius(gears[i]) + radius(gear) + TOM_GAP_MM) / (2 * ring))));
  const width = pitches.reduce((sum, each) => sum + each, 0);
  // The last two are on either side of the bass drum's middle.
  const overBass = toDegrees(Math.asin(bassX / ring)) + (wish.up === 3 ? pitches[0] / 2 : 0);
  const middleDeg = (wish.toms === 'offset' ? OFFSET_DEG : CENTRED_DEG)[wish.up - 1] ?? overBass;
  const bassTop = 2 * bassR;
  const tomDegs = gears.map((_, i) => middleDeg + width / 2 - pitches.slice(0, i).reduce((sum, each) => sum + each, 0));
  const tomTilt = 12;
  const tops = gears.map((gear) => {
    const { depthMm } = sized(gear);
    const lean = toRadians(tomTilt);
    return Math.max(snareTop + 185, bassTop + 30 + depthMm * Math.cos(lean) + radius(gear) * Math.sin(lean));
  });
  const tomTop = round(Math.max(...tops));
  const toms: (Disc & { id: string })[] = gears.map((gear, i) => {
    const [x, y] = at({ deg: tomDegs[i], r: ring }, centre);
    const id = `tom-${i + 1}`;
    return { id, x, y, r: radius(gear) };
  });
  // The hi-hats beside the toms.
  const hatGear = 'hi-hats-14';
  const hatR = radius(hatGear);
  const hatFar = farFor(HAT_KNEE_DEG, (far) => hatAt(34, far), 'hiHat');
  let hatDeg = isDouble ? 40 : 32;
  const hatDisc = (deg: number): Disc => {
    const [x, y] = at({ deg, r: hatFar }, [sizes.hipMm / 4, 0]);
    return { x, y, r: hatR };
  };
  while (hatDeg < 56 && toms.some((tom) => gapOf(tom, hatDisc(hatDeg)) < BESIDE_MM)) hatDeg++;
  const hatStand = hatAt(hatDeg, hatFar);

  if (isDouble) {
    const second = { xMm: round(secondX - bassX), yMm: round(secondY - pedalY), headingDeg: SECOND_HEADING_DEG };
    kit.put({ ...pedalAt(pedalY), second });
  } else kit.put(pedalAt(pedalY));
  kit.put(hatStand);
  const hats = itemOf(
    HATS,
    'Hi-hats',
    hatGear,
    { ...hatStand.place, headingDeg: 0, heightMm: snareTop + 225 },
    { mount: { carrier: { on: 'piece', piece: HAT_STAND }, clamp: null, arm: null } },
  );
  kit.put(hats);
  const snareStand = itemOf(
    SNARE_STAND,
    'Snare stand',
    'stand-snare',
    { xMm: snareX, yMm: snareY, headingDeg: 0 },
    { legsTurnDeg: 0 },
  );
  const snareItem = itemOf(
    SNARE,
    'Snare',
    snareGear,
    { ...snareStand.place, heightMm: snareTop },
    { mount: { carrier: { on: 'piece', piece: SNARE_STAND }, clamp: null, arm: null } },
  );
  const backwards = <T extends Item>(item: T, back: number): T => ({
    ...item,
    place: { ...item.place, yMm: item.place.yMm + back },
  });
  kit.best(
    SNARE_BACK_MM.flatMap((back) =>
      SNARE_TURNS_DEG.map((legsTurnDeg) => [
        { ...backwards(snareStand, back), legsTurnDeg },
        backwards(snareItem, back),
      ]),
    ),
  );
  kit.best([0, 15, -15, 30, -30, 45, 60].map((legsTurnDeg) => [{ ...hatStand, legsTurnDeg }]));

  for (const [i, { id, x, y }] of toms.entries())
    kit.put(
      itemOf(id, `Tom ${round(sized(gears[i]).diameterMm / 25.4)}`, gears[i], {
        xMm: x,
        yMm: y,
        headingDeg: facing(x - centre[0], y - centre[1]),
        heightMm: tomTop,
        tiltDeg: tomTilt,
      }),
    );

  const floors = FLOOR_PLACES[wish.down === 3 ? 1 : 0].slice(0, wish.down).map(([x, y], i): Disc & { id: string } => ({
    id: `floor-tom-${i + 1}`,
    x: x * k,
    y: y * k,
    r: radius(FLOOR_GEAR[i]),
  }));
  // Drums keep their size where the reach is shorter: clear of the throne, of the bass drum, and each of the one before it.
  const corner: Disc = { x: bassX - bassR, y: batterY, r: 0 };
  floors.forEach((floor, i) => {
    const before: Disc[] = i === 0 ? [corner] : [floors[i - 1]];
    for (let step = 0; step < 60 && before.some((other) => gapOf(floor, other) < 22); step++)
      floors[i] = floor = i === 0 ? { ...floor, x: floor.x - 5 } : { ...floor, y: floor.y + 5 };
  });
  // Out of the leg's way.
  for (const [i, { id, x, y }] of floors.entries())
    kit.best(
      FLOOR_OUT_MM.map((out) => [
        itemOf(id, FLOOR_NAMES[i], FLOOR_GEAR[i], { xMm: x - out, yMm: y, headingDeg: 0, heightMm: seat + 140 }),
      ]),
    );

  const cymbals = putCymbals(kit, wish, {
    k,
    shoulder,
    snareTop,
    tomTop,
    ring,
    centre,
    tomDegs,
    toms,
    hats: hatDisc(hatDeg),
  });
  return {
    toms: toms.map(({ id }) => id),
    floorToms: floors.map(({ id }) => id),
    cymbals,
    bass: { x: bassX, frontY: bassY - bass.depthMm / 2, r: bassR },
  };
}

interface Around {
  readonly k: number;
  readonly shoulder: number;
  readonly snareTop: number;
  readonly tomTop: number;
  readonly ring: number;
  readonly centre: readonly [number, number];
  readonly tomDegs: readonly number[];
  readonly toms: readonly Disc[];
  readonly hats: Disc;
}

/** A cymbal that comes with the kit: where it is looked for, and which way if that is taken. */
interface Cymbal {
  readonly id: string;
  readonly name: string;
  readonly gear: string;
  readonly deg: number;
  readonly step: number;
  readonly r: number;
  readonly from: readonly [number, number];
  readonly z: number;
  readonly tilt: number;
  /** Clear of the toms in plan too. */
  readonly besideToms: boolean;
}

/** The hi-hats are the first; then ride, crashes, splash, china, a third crash, a second splash. */
function putCymbals(kit: Trial, { cymbals: count }: StarterWish, around: Around): string[] {
  const { k, shoulder, snareTop, tomTop, ring, centre, tomDegs, toms, hats } = around;
  const middle: readonly [number, number] = [0, 0];
  const first = tomDegs[0];
  const last = tomDegs[tomDegs.length - 1];
  const splashDeg = tomDegs.length > 1 ? (first + tomDegs[1]) / 2 : first + 15;
  const wanted: Cymbal[] = [
    {
      id: 'ride',
      name: 'Ride 20',
      gear: 'ride-20',
      deg: -27,
      step: -1,
      r: 950 * k,
      from: middle,
      z: Math.max(snareTop + 290, tomTop + 90),
      tilt: 10,
      besideToms: true,
    },
    {
      id: 'crash-1',
      name: 'Crash 16',
      gear: 'crash-16',
      deg: 25,
      step: 1,
      r: 1130 * k,
      from: middle,
      z: Math.max(shoulder + 45, tomTop + 250),
      tilt: 12,
      besideToms: false,
    },
    {
      id: 'crash-2',
      name: 'Crash 18',
      gear: 'crash-18',
      deg: -26,
      step: -1,
      r: 1190 * k,
      from: middle,
      z: Math.max(shoulder + 75, tomTop + 270),
      tilt: 12,
      besideToms: false,
    },
    {
      id: 'splash-1',
      name: 'Splash 10',
      gear: 'splash-10',
      deg: splashDeg,
      step: 1,
      r: ring + 105,
      from: centre,
      z: tomTop + 150,
      tilt: 10,
      besideToms: false,
    },
    {
      id: 'china',
      name: 'China 18',
      gear: 'china-18',
      deg: -70,
      step: -1,
      r: 960 * k,
      from: middle,
      z: Math.max(shoulder + 75, tomTop + 270),
      tilt: 12,
      besideToms: false,
    },
    {
      id: 'crash-3',
      name: 'Crash 17',
      gear: 'crash-17',
      deg: 54,
      step: 1,
      r: 1010 * k,
      from: middle,
      z: Math.max(shoulder + 70, tomTop + 270),
      tilt: 12,
      besideToms: false,
    },
    {
      id: 'splash-2',
      name: 'Splash 8',
      gear: 'splash-8',
      deg: tomDegs.length > 2 ? (last + tomDegs[1]) / 2 : last - 14,
      step: -1,
      r: ring + 90,
      from: centre,
      z: tomTop + 150,
      tilt: 10,
      besideToms: false,
    },
  ].slice(0, count - 1);
  // Splashes are over the toms and cannot give way: they come first.
  const order = [...wanted].sort((a, b) => Number(b.id.startsWith('splash')) - Number(a.id.startsWith('splash')));
  const placed: (Disc & { readonly z: number })[] = [];
  const items = new Map<string, Item>();
  for (const one of order) {
    const gear = gearOf(kit.plan.gear, one.gear);
    const r = gear?.kind === 'cymbal' ? gear.diameterMm / 2 : 0;
    let deg = one.deg;
    const disc = (): Disc => {
      const [x, y] = at({ deg, r: one.r }, one.from);
      return { x, y, r };
    };
    const isTaken = () =>
      placed.some(
        (other) => gapOf(other, disc()) < (Math.abs(other.z - one.z) < OVER_MM ? BESIDE_MM : -OVER_EDGE_MM),
      ) ||
      (one.besideToms && [...toms, hats].some((other) => gapOf(other, disc()) < BESIDE_MM));
    for (let tries = 0; tries < 70 && isTaken(); tries++) deg += one.step;
    const { x, y } = disc();
    placed.push({ ...disc(), z: one.z });
    items.set(
      one.id,
      itemOf(one.id, one.name, one.gear, {
        xMm: x,
        yMm: y,
        headingDeg: facing(x, y),
        heightMm: round(one.z),
        tiltDeg: one.tilt,
      }),
    );
  }
  for (const { id } of wanted) kit.put(items.get(id) as Item);
  return wanted.map(({ id }) => id);
}
