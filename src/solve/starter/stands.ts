/** A starter kit on stands: cymbals on boom stands outside of them, floor toms on their legs, toms on the bass drum or on a tom stand. */
import { gearOf } from '../../gear/catalogue.ts';
import type { Item, Mount } from '../../plan/schema.ts';
import { toDegrees, toRadians } from '../../units.ts';
import { standOffer } from '../mountWays.ts';
import { hang } from './hang.ts';
import { BASS, itemOf, type Playing } from './playing.ts';
import { BLOCKED, type Trial } from './trial.ts';
import type { StarterWish } from './wish.ts';

/** How far outside of its cymbal a boom stand's tube is, and how far round. */
const OUT_MM = [220, 280, 180, 340, 400] as const;
const ROUND_DEG = [0, 20, -20, 40, -40, 60, -60, 80, -80, 110, -110] as const;
/** From where one leg is under what the stand holds. */
const TURNS_DEG = [0, 20, -20, 40, -40, 60] as const;
/** Beside a bass drum there is less room for them. */
const TOM_TURNS_DEG = [0, 20, -20, 40, -40, 60, 10, -10, 30, -30, 50, -50] as const;
/** A stand's legs are 120 degrees apart, the first points to -y; this turn lays one under a direction. */
const turnUnder = (dx: number, dy: number, more: number): number => {
  const turn = (toDegrees(Math.atan2(dy, dx)) + 90 + more) % 120;
  return Math.round(turn > 60 ? turn - 120 : turn < -60 ? turn + 120 : turn);
};

const onStand = (piece: string): Mount => ({ carrier: { on: 'piece', piece }, clamp: null, arm: null });

/** Where a stand's tube may be about a place: outwards from the throne first. */
function* tubesRound(
  x: number,
  y: number,
  outs: readonly number[],
  away = Math.atan2(y, x),
): Generator<[number, number]> {
  for (const deg of ROUND_DEG)
    for (const out of outs) {
      const angle = away + toRadians(deg);
      yield [x + out * Math.cos(angle), y + out * Math.sin(angle)];
    }
}

/** One boom stand for a cymbal. */
export function putBoomStand(kit: Trial, id: string): number {
  const cymbal = kit.item(id);
  const { xMm, yMm } = cymbal.place;
  const gear = gearOf(kit.plan.gear, cymbal.gear);
  const small = gear?.kind === 'cymbal' && gear.use === 'splash';
  const stand = (standGear: string, x: number, y: number, legsTurnDeg: number): Item =>
    itemOf(`${id}-stand`, `${cymbal.name} stand`, standGear, { xMm: x, yMm: y, headingDeg: 0 }, { legsTurnDeg });
  function* ways(): Generator<Item[]> {
    const hung = { ...cymbal, mount: onStand(`${id}-stand`) };
    for (const standGear of small ? ['stand-boom-light', 'stand-boom-long'] : ['stand-boom', 'stand-boom-long'])
      for (const [x, y] of tubesRound(xMm, yMm, standGear === 'stand-boom-long' ? [450, 560, 330] : OUT_MM)) {
        const one = stand(standGear, x, y, 0);
        if (!standOffer(kit.plan, one, cymbal, gear)) continue;
        for (const more of TURNS_DEG) yield [{ ...one, legsTurnDeg: turnUnder(xMm - x, yMm - y, more) }, hung];
      }
  }
  return kit.best(ways());
}

/** One tom stand for a tom: its second arm is off. */
function putTomStand(kit: Trial, id: string): number {
  const tom = kit.item(id);
  const { xMm: x, yMm: y } = tom.place;
  const standId = `${id}-stand`;
  function* ways(): Generator<Item[]> {
    for (const [tubeX, tubeY] of tubesRound(x, y, [290, 320, 350, 260, 390]))
      for (const more of TOM_TURNS_DEG) {
        const legsTurnDeg = turnUnder(x - tubeX, y - tubeY, more);
        const stand = itemOf(
          standId,
          `${tom.name} stand`,
          'stand-tom',
          { xMm: tubeX, yMm: tubeY, headingDeg: 0 },
          { legsTurnDeg },
        );
        if (!standOffer(kit.plan, stand, tom, gearOf(kit.plan.gear, tom.gear))) break;
        yield [stand, { ...tom, mount: onStand(standId) }];
      }
  }
  return kit.best(ways());
}

const L_ARMS = ['l-arm-short', 'l-arm', 'l-arm-long', 'l-arm-extra-long'] as const;

/** Two toms on a double holder in the bass drum's shell. */
function putDoubleHolder(kit: Trial, [left, right]: readonly string[]): number {
  const [a, b] = [kit.item(left), kit.item(right)];
  function* ways(): Generator<Item[]> {
    for (const platformArm of L_ARMS)
      for (const arm of L_ARMS)
        for (const [first, second, socket] of [
          [b, a, 1],
          [a, b, 0],
        ] as const)
          yield [
            {
              ...first,
              mount: { carrier: { on: 'piece', piece: BASS }, clamp: null, arm: 'tom-holder-double', platformArm },
            },
            { ...second, mount: { carrier: { on: 'socket', piece: first.id, socket }, clamp: null, arm } },
          ];
  }
  return kit.best(ways());
}

/** Mounted toms without a rack: two on a double holder in the bass drum's shell, one on an arm there, the others on stands. */
function putToms(kit: Trial, wish: StarterWish, { toms }: Playing): void {
  let rest = toms;
  if (wish.toms === 'centred' && toms.length > 1 && putDoubleHolder(kit, toms.slice(-2)) < BLOCKED)
    rest = toms.slice(0, -2);
  else {
    const bare = toms.slice(-2).map((id) => ({ ...kit.item(id), mount: null }));
    kit.put(...bare);
    if (hang(kit, toms[toms.length - 1], [BASS])) rest = toms.slice(0, -1);
  }
  for (const id of [...rest].reverse()) putTomStand(kit, id);
}

export function putStands(kit: Trial, wish: StarterWish, playing: Playing): void {
  putToms(kit, wish, playing);
  for (const id of playing.cymbals) putBoomStand(kit, id);
}
