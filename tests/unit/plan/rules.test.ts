import { describe, expect, test } from 'vitest';
import { readPlan } from '../../../src/plan/read.ts';
import { chain } from '../../fixtures/plans.ts';
import { type Broken, broken, expectProblem, front, left, SETUP, straight } from './broken.ts';

describe('rules', () => {
  test.each<[string, (plan: Broken) => void, string, string, string]>([
    [
      'PL-1 an order with a piece too few',
      (p) => {
        straight(p).order.pop();
      },
      'order_differs',
      SETUP,
      'piece "pedal" is missing from the order.',
    ],
    [
      'PL-1 an order with a piece too many',
      (p) => {
        straight(p).order.push('ghost');
      },
      'order_differs',
      SETUP,
      'the order names piece "ghost", which is not there.',
    ],
    [
      'PL-1 an order with a piece twice',
      (p) => {
        straight(p).order.push('left');
      },
      'order_differs',
      SETUP,
      'the order names piece "left" twice.',
    ],
    [
      'PL-1 an order of setups that is short',
      (p) => {
        p.order.pop();
      },
      'order_differs',
      'The plan',
      'setup "empty" is missing from the order.',
    ],
    [
      'PL-1 an order that names what every object has',
      (p) => {
        straight(p).order.push('toString');
      },
      'order_differs',
      SETUP,
      'the order names piece "toString", which is not there.',
    ],
    [
      'PL-2 an id that is not its key',
      (p) => {
        left(p).id = 'right';
      },
      'id_differs',
      `${SETUP}, piece "Left rack"`,
      'its id is "right", but it stands under "left".',
    ],
    [
      'PL-3 a riser that is not there',
      (p) => {
        straight(p).riser = 'toString';
      },
      'unknown_riser',
      SETUP,
      'it stands on riser "toString", which is not in this plan.',
    ],
    [
      'PL-4 a bar joined to no leg',
      (p) => {
        front(p).legs.pop();
      },
      'bar_without_leg',
      `${SETUP}, piece "Front rack", span 2, bar 1`,
      'it is joined to no leg at its end: the rack has 2 spans and needs 3 legs, but has 2.',
    ],
    [
      'PL-4 a leg that no bar joins',
      (p) => {
        front(p).spans.pop();
      },
      'leg_without_bar',
      `${SETUP}, piece "Front rack", leg 3`,
      'no bar joins it: the rack has 3 legs and needs 2 spans, but has 1.',
    ],
    [
      'PL-5 a doubled leg id',
      (p) => {
        left(p).legs[1].id = 'l1';
      },
      'doubled_id',
      `${SETUP}, piece "Left rack", leg 2`,
      'another leg of this rack has its id "l1" already.',
    ],
    [
      'PL-5 a doubled bar id',
      (p) => {
        front(p).spans[1].bars[0].id = 'b1';
      },
      'doubled_id',
      `${SETUP}, piece "Front rack", span 2, bar 1`,
      'another bar of this rack has its id "b1" already.',
    ],
    [
      'PL-5 a doubled module id',
      (p) => {
        p.risers.riser.modules[1].id = 'm1';
      },
      'doubled_id',
      'Riser "House riser", module 2',
      'another module of this riser has its id "m1" already.',
    ],
    [
      'PL-6 a first span with a joint angle',
      (p) => {
        left(p).spans[0].turnDeg = 5;
      },
      'first_span_turned',
      `${SETUP}, piece "Left rack"`,
      "the first span has a joint angle of 5 degrees; it must be 0, since the rack's heading says where the span points.",
    ],
    [
      'PL-7 a tube that is nowhere',
      (p) => {
        left(p).spans[0].bars[0].tube = 'tube-x';
      },
      'unknown_gear',
      `${SETUP}, piece "Left rack", bar 1`,
      'its tube is "tube-x", which is not in the catalogue and not in this plan\'s own gear.',
    ],
    [
      'PL-7 a tube that is a clamp',
      (p) => {
        left(p).spans[0].bars[0].tube = 'clamp-own';
      },
      'wrong_gear',
      `${SETUP}, piece "Left rack", bar 1`,
      'its tube is "Arm clamp", which is a clamp, where a tube is needed.',
    ],
    [
      'PL-7 a foot that is a tube',
      (p) => {
        left(p).legs[0].foot.gear = 'tube-leg';
      },
      'wrong_gear',
      `${SETUP}, piece "Left rack", leg 1, foot`,
      'its gear is "Upright tube", which is a tube, where a foot is needed.',
    ],
    [
      'PL-7 a module that is a drum',
      (p) => {
        p.risers.riser.modules[0].gear = 'tom';
      },
      'wrong_gear',
      'Riser "House riser", module 1',
      'its gear is "Tom 12 x 8", which is a drum, where a deck module is needed.',
    ],
    [
      'PL-8 overhangs as long as the tube',
      (p) => {
        left(p).spans[0].farOverhangMm = 950;
      },
      'no_leg_distance',
      `${SETUP}, piece "Left rack", bar 1`,
      'its overhangs of 50 mm and 950 mm leave no distance between its two legs on a tube of 1000 mm.',
    ],
    [
      'PL-8 a bend past a full turn',
      (p) => {
        left(p).spans[0].bars[0].bend = { radiusMm: 100, straightEndsMm: 0, side: 'left' };
      },
      'bend_past_turn',
      `${SETUP}, piece "Left rack", bar 1`,
      'a tube of 1000 mm bent to a radius of 100 mm would go round more than once.',
    ],
    [
      'PL-8 straight ends longer than the tube',
      (p) => {
        left(p).spans[0].bars[0].bend = { radiusMm: 500, straightEndsMm: 501, side: 'left' };
      },
      'straight_ends_too_long',
      `${SETUP}, piece "Left rack", bar 1`,
      'its two straight ends of 501 mm are longer than the tube of 1000 mm.',
    ],
    [
      'PL-9 a bar over the top of a leg',
      (p) => {
        left(p).spans[0].bars[0].heightMm = 950;
      },
      'bar_above_leg',
      `${SETUP}, piece "Left rack", bar 1`,
      'at a height of 950 mm it passes over leg 1, which ends at 900 mm.',
    ],
    [
      'PL-10 gear of a piece that is nowhere',
      (p) => {
        straight(p).pieces.hat.gear = 'constructor-x';
      },
      'unknown_gear',
      `${SETUP}, piece "Hi-hat"`,
      'its gear is "constructor-x", which is not in the catalogue and not in this plan\'s own gear.',
    ],
    [
      'PL-10 a piece that is a clamp',
      (p) => {
        straight(p).pieces.hat.gear = 'clamp-own';
      },
      'wrong_gear',
      `${SETUP}, piece "Hi-hat"`,
      'its gear is "Arm clamp", which is a clamp, where a bass drum, a drum, a cymbal, a pedal, a throne, a stand or a stage item is needed.',
    ],
    [
      'PL-11 a mount on nothing',
      (p) => {
        straight(p).pieces.crash.mount.carrier.rack = 'gone';
      },
      'unknown_carrier',
      `${SETUP}, piece "Left crash"`,
      'the mount is on rack "gone", which is not in this setup.',
    ],
    [
      'PL-11 a mount on a bar that is not there',
      (p) => {
        straight(p).pieces.crash.mount.carrier.bar = 'b9';
      },
      'unknown_carrier',
      `${SETUP}, piece "Left crash"`,
      'the mount is on bar "b9" of "Left rack", which has no such bar.',
    ],
    [
      'PL-11 a mount on a leg that is not there',
      (p) => {
        straight(p).pieces.splash.mount.carrier.leg = 'l9';
      },
      'unknown_carrier',
      `${SETUP}, piece "Splash"`,
      'the mount is on leg "l9" of "Front rack", which has no such leg.',
    ],
    [
      'PL-11 a mount on a bar of a drum',
      (p) => {
        straight(p).pieces.crash.mount.carrier.rack = 'tom1';
      },
      'unknown_carrier',
      `${SETUP}, piece "Left crash"`,
      'the mount is on "Tom 1", which is not a rack and has no bars.',
    ],
    [
      'PL-11 a mount on a cymbal',
      (p) => {
        straight(p).pieces.hat.mount.carrier.piece = 'crash';
      },
      'unknown_carrier',
      `${SETUP}, piece "Hi-hat"`,
      'the mount is on "Left crash", which is neither a bass drum nor a stand.',
    ],
    [
      'PL-11 a mount somewhere on a rack',
      (p) => {
        straight(p).pieces.hat.mount.carrier.piece = 'left';
      },
      'unknown_carrier',
      `${SETUP}, piece "Hi-hat"`,
      'the mount is on rack "Left rack" without saying which bar or leg.',
    ],
    [
      'PL-11 a socket too many',
      (p) => {
        straight(p).pieces.tom2.mount.carrier.socket = 2;
      },
      'unknown_socket',
      `${SETUP}, piece "Tom 2"`,
      'the mount is in socket 3 of "Double platform", which holds "Tom 1" and has 2.',
    ],
    [
      'PL-11 a socket of nothing',
      (p) => {
        straight(p).pieces.tom2.mount.carrier.piece = 'pedal';
      },
      'unknown_socket',
      `${SETUP}, piece "Tom 2"`,
      'the mount is in a socket of what holds "Pedals", but no arm or tom holder holds that piece.',
    ],
    [
      'PL-11 a tie to nothing',
      (p) => {
        straight(p).pieces['hat-stand'].ties[0].carrier.leg = 'l9';
      },
      'unknown_carrier',
      `${SETUP}, piece "Hi-hat stand", tie 1`,
      'the tie is on leg "l9" of "Left rack", which has no such leg.',
    ],
    [
      'PL-12 a clamp off the end of its tube',
      (p) => {
        straight(p).pieces.crash.mount.carrier.atMm = 1000.5;
      },
      'clamp_off_tube',
      `${SETUP}, piece "Left crash"`,
      'its clamp is 1000.5 mm along bar "b1" of "Left rack", off the end of that tube, which is 1000 mm long.',
    ],
    [
      'PL-12 a clamp above the top of an upright',
      (p) => {
        straight(p).pieces.splash.mount.carrier.heightMm = 901;
      },
      'clamp_off_tube',
      `${SETUP}, piece "Splash"`,
      'its clamp is at a height of 901 mm on leg "l3" of "Front rack", above the top of that upright at 900 mm.',
    ],
    [
      'PL-13 a clamp that is an arm',
      (p) => {
        straight(p).pieces.crash.mount.clamp = 'boom-1';
      },
      'wrong_gear',
      `${SETUP}, piece "Left crash", mount`,
      'its clamp is "Boom arm", which is a boom, where a clamp is needed.',
    ],
    [
      'PL-13 an arm that is a clamp',
      (p) => {
        straight(p).pieces.crash.mount.arm = 'clamp-own';
      },
      'wrong_gear',
      `${SETUP}, piece "Left crash", mount`,
      'its arm is "Arm clamp", which is a clamp, where a boom, an L-arm, a tom holder or a link is needed.',
    ],
    [
      'PL-13 an arm that is nowhere',
      (p) => {
        straight(p).pieces.crash.mount.arm = 'boom-9';
      },
      'unknown_gear',
      `${SETUP}, piece "Left crash", mount`,
      'its arm is "boom-9", which is not in the catalogue and not in this plan\'s own gear.',
    ],
    [
      'PL-13 an arm on a platform that is a link',
      (p) => {
        straight(p).pieces.tom1.mount.platformArm = 'link-1';
      },
      'wrong_gear',
      `${SETUP}, piece "Tom 1", mount`,
      'its platformArm is "Link bar", which is a link, where a boom or an L-arm is needed.',
    ],
    [
      'PL-13 an arm on a platform that is nowhere',
      (p) => {
        straight(p).pieces.tom1.mount.platformArm = 'l-arm-9';
      },
      'unknown_gear',
      `${SETUP}, piece "Tom 1", mount`,
      'its platformArm is "l-arm-9", which is not in the catalogue and not in this plan\'s own gear.',
    ],
    [
      'PL-13 an arm on a platform without a platform',
      (p) => {
        straight(p).pieces.crash.mount.platformArm = 'l-arm';
      },
      'wrong_gear',
      `${SETUP}, piece "Left crash"`,
      '"L-arm" stands in a tom holder\'s socket, but "Boom arm" holds this piece: take a tom holder as its arm, or leave the tom holder\'s arm out.',
    ],
    [
      'PL-13 a link that is a boom',
      (p) => {
        straight(p).pieces['hat-stand'].ties[0].link = 'boom-1';
      },
      'wrong_gear',
      `${SETUP}, piece "Hi-hat stand", tie 1`,
      'its link is "Boom arm", which is a boom, where a link is needed.',
    ],
    [
      'PL-14 a piece mounted on itself',
      (p) => {
        straight(p).pieces.tom1.mount.carrier = { on: 'socket', piece: 'tom1', socket: 0 };
      },
      'mount_cycle',
      `${SETUP}, piece "Tom 1"`,
      'it is mounted on itself.',
    ],
    [
      'PL-14 a ring of mounts',
      (p) => {
        straight(p).pieces.tom1.mount.carrier = { on: 'socket', piece: 'tom2', socket: 0 };
      },
      'mount_cycle',
      `${SETUP}, piece "Tom 1"`,
      'it is mounted in a ring and rests on nothing: "Tom 1" on "Tom 2" on "Tom 1".',
    ],
    [
      'PL-15 an arm of no length',
      (p) => {
        Object.assign(p.gear['boom-1'], { postMm: [0, 0], armMm: [0, 0] });
      },
      'arm_without_length',
      'Gear "Boom arm"',
      'its post and its arm can be no longer than 0, so it reaches nothing.',
    ],
  ])('%s', (_, change, code, place, reason) => expectProblem(broken(change), code, place, `${place}: ${reason}`));

  test('PL-14 a ring of a thousand', () => {
    const text = broken((p) => {
      const setup = p.setups.empty;
      for (let i = 0; i < 1000; i++) {
        const id = `t${i}`;
        setup.pieces[id] = {
          kind: 'item',
          id,
          name: id,
          gear: 'tom',
          place: { xMm: 0, yMm: 0, headingDeg: 0 },
          mount: { carrier: { on: 'socket', piece: `t${(i + 1) % 1000}`, socket: 0 }, clamp: null, arm: 'boom-1' },
        };
        setup.order.push(id);
      }
    });
    expectProblem(
      text,
      'mount_cycle',
      'Setup "Nothing yet", piece "t0"',
      'Setup "Nothing yet", piece "t0": it is mounted in a ring and rests on nothing: "t0" on "t1" on "t2" on ... on "t0".',
    );
  });

  test.each<[string, (plan: Broken) => void]>([
    [
      'PL-12 a clamp at the very end of its tube',
      (p) => {
        straight(p).pieces.crash.mount.carrier.atMm = 1000;
      },
    ],
    [
      'PL-12 a clamp at the very top of an upright',
      (p) => {
        straight(p).pieces.splash.mount.carrier.heightMm = 900;
      },
    ],
    [
      'PL-9 a bar at the very top of its legs',
      (p) => {
        left(p).spans[0].bars[0].heightMm = 900;
      },
    ],
    [
      'PL-8 a further bar that leaves its leg no distance, which the frame tells',
      (p) => {
        front(p).spans[0].bars[1].overhangMm = 1100;
      },
    ],
    [
      'PL-14 a piece on a stand and tied to it as well',
      (p) => {
        straight(p).order.reverse();
        straight(p).pieces.hat.ties = [
          { carrier: { on: 'piece', piece: 'hat-stand' }, link: 'link-1', clamp: null, heightMm: 0 },
        ];
      },
    ],
    [
      'PL-11 an arm in the last socket',
      (p) => {
        straight(p).pieces.tom2.mount.carrier.socket = 1;
      },
    ],
  ])('%s is read', (_, change) => expect(readPlan(broken(change)).ok).toBe(true));

  test('a rack more, with a note, is read', () => {
    expect(
      readPlan(
        broken((p) => {
          straight(p).pieces.chain2 = { ...chain('chain2', 'More'), note: 'spare' };
          straight(p).order.push('chain2');
        }),
      ).ok,
    ).toBe(true);
  });
});
