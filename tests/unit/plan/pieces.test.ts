import { describe, expect, test } from 'vitest';
import { carriedBy } from '../../../src/plan/motion.ts';
import { runCommand } from '../../../src/plan/run.ts';
import type { Item } from '../../../src/plan/schema.ts';
import { item, rack, samplePlan } from '../../fixtures/plans.ts';
import { expectLaws, expectRefusal } from './laws.ts';

const plan = samplePlan();
const setup = 'straight';
const itemOf = (after: typeof plan, id: string) => after.setups.straight.pieces[id] as Item;

describe('placePieces', () => {
  test('PC-1 writes the fields it names and keeps the others', () => {
    const after = expectLaws(plan, {
      type: 'placePieces',
      setup,
      places: { crash: { xMm: -700, headingDeg: 35 }, left: { yMm: -90 } },
    });
    expect(after.setups.straight.pieces.crash.place).toEqual({
      xMm: -700,
      yMm: -450,
      headingDeg: 35,
      heightMm: 1050,
      tiltDeg: 12,
    });
    expect(after.setups.straight.pieces.left.place).toEqual({ xMm: -800, yMm: -90, headingDeg: -90 });
  });
  test('PC-1 null takes a height and a tilt away', () => {
    const after = expectLaws(plan, {
      type: 'placePieces',
      setup,
      places: { crash: { heightMm: null, tiltDeg: null } },
    });
    expect(Object.keys(after.setups.straight.pieces.crash.place)).toEqual(['xMm', 'yMm', 'headingDeg']);
  });
  test('PC-2 what has not moved stays the same object, so that its bodies need not be made again', () => {
    const after = expectLaws(plan, { type: 'placePieces', setup, places: { crash: { xMm: 0 } } });
    expect(after.setups.straight.pieces.left).toBe(plan.setups.straight.pieces.left);
    expect(after.setups.empty).toBe(plan.setups.empty);
    expect(after.gear).toBe(plan.gear);
  });
  test('PC-3 a moving rack leaves the pieces on it where the player wants them', () => {
    const after = expectLaws(plan, { type: 'placePieces', setup, places: { left: { xMm: -900, headingDeg: -80 } } });
    expect(itemOf(after, 'crash')).toBe(itemOf(plan, 'crash'));
  });
  test('PC-4 all pieces or none', () => {
    expectRefusal(
      plan,
      { type: 'placePieces', setup, places: { crash: { xMm: 0 }, ghost: { xMm: 0 } } },
      'unknown',
      /^"Straight racks" has no piece "ghost"\.$/,
    );
  });
  test('PC-5 a locked piece stays', () => {
    const locked = expectLaws(plan, { type: 'setPiece', setup, piece: 'crash', set: { locked: true } });
    expectRefusal(
      locked,
      { type: 'placePieces', setup, places: { crash: { xMm: 0 } } },
      'piece_locked',
      /^"Left crash" is locked: unlock it first\.$/,
    );
    const unlocked = expectLaws(locked, { type: 'setPiece', setup, piece: 'crash', set: { locked: null } });
    expect(unlocked).toEqual(plan);
  });
  test.each([
    [Number.NaN, /"xMm" must be a finite number, not NaN\.$/],
    [1e9, /"xMm" is 1000000000, and must be at most 50000\.$/],
  ])('PC-6 x of %d is refused with the place', (xMm, words) => {
    const refusal = expectRefusal(
      plan,
      { type: 'placePieces', setup, places: { crash: { xMm } } },
      'breaks_plan',
      words,
    );
    expect(refusal.code === 'breaks_plan' && refusal.problem.place).toBe('Setup "Straight racks", piece "Left crash"');
  });
  test('unknown setups and empty commands', () => {
    expectRefusal(
      plan,
      { type: 'placePieces', setup: 'toString', places: {} },
      'unknown',
      /^The plan has no setup "toString"\.$/,
    );
    expectRefusal(plan, { type: 'placePieces', setup, places: {} }, 'nothing_asked', /^Nothing was asked for\.$/);
    expectRefusal(
      plan,
      { type: 'placePieces', setup, places: { valueOf: { xMm: 1 } } },
      'unknown',
      /no piece "valueOf"/,
    );
  });
});

describe('addPiece', () => {
  test('PC-7 puts it last, or where it says', () => {
    const last = expectLaws(plan, { type: 'addPiece', setup, piece: item('new', 'New tom', 'tom', 1, 2) });
    expect(last.setups.straight.order.at(-1)).toBe('new');
    const second = expectLaws(plan, { type: 'addPiece', setup, piece: rack('new', 'Right rack', 1, 2, 90), at: 1 });
    expect(second.setups.straight.order.slice(0, 3)).toEqual(['left', 'new', 'front']);
  });
  test('the command stays the caller’s own', () => {
    const piece = item('new', 'New tom', 'tom', 1, 2);
    expectLaws(plan, { type: 'addPiece', setup, piece });
    piece.name = 'Renamed';
    expect(Object.isFrozen(piece.place)).toBe(false);
  });
  test('refuses ids that are taken or cannot be keys, unknown gear, and mounts on nothing', () => {
    const add = (piece: Item) => ({ type: 'addPiece', setup, piece }) as const;
    expectRefusal(
      plan,
      add(item('crash', 'X', 'tom', 0, 0)),
      'id_taken',
      /^There is a piece with the id "crash" already\.$/,
    );
    for (const id of ['__proto__', 'constructor', ''])
      expectRefusal(plan, add(item(id, 'X', 'tom', 0, 0)), 'id_unusable', /id/);
    expect(({} as { name?: string }).name).toBeUndefined();
    expectRefusal(
      plan,
      add(item('new', 'X', 'no-such', 0, 0)),
      'breaks_plan',
      /^Setup "Straight racks", piece "X": its gear is "no-such", which is not in the catalogue/,
    );
    const carrier = { on: 'bar' as const, rack: 'left', bar: 'b1', atMm: 1001 };
    expectRefusal(
      plan,
      add({ ...item('new', 'X', 'tom', 0, 0), mount: { carrier, clamp: null, arm: null } }),
      'breaks_plan',
      /off the end of that tube/,
    );
  });
  test('an item of a name that every object has is just a piece', () => {
    const after = expectLaws(plan, { type: 'addPiece', setup, piece: item('toString', 'Odd', 'tom', 0, 0) });
    expect(Object.hasOwn(after.setups.straight.pieces, 'toString')).toBe(true);
  });
});

test('RD-6 a plan that could be saved and not opened again is refused', () => {
  const note = 'x'.repeat(3999);
  const pieces = Array.from({ length: 990 }, (_, i) => ({ ...item(`n${i}`, `N ${i}`, 'tom', i, 0), note }));
  const big = {
    ...plan,
    setups: {
      ...plan.setups,
      empty: {
        ...plan.setups.empty,
        pieces: Object.fromEntries(pieces.map((each) => [each.id, each])),
        order: pieces.map((each) => each.id),
      },
    },
  };
  // 990 notes leave too little of the 4 MB for a copy.
  expectRefusal(
    big,
    { type: 'duplicateSetup', setup: 'empty', id: 'copy', name: 'Copy' },
    'breaks_plan',
    /^The plan is 8\.\d MB, and the most is 4 MB\.$/,
  );
  // What makes it no longer is carried out.
  expect(runCommand(big, { type: 'removePieces', setup: 'empty', pieces: ['n1', 'n2'] }).ok).toBe(true);
}, 30_000);

describe('removePieces', () => {
  test('PC-8 what the rack held stays in place, held by nothing; ties to it go', () => {
    const after = expectLaws(plan, { type: 'removePieces', setup, pieces: ['left'] });
    expect(after.setups.straight.order).not.toContain('left');
    expect(itemOf(after, 'crash')).toEqual({ ...itemOf(plan, 'crash'), mount: null });
    expect(itemOf(after, 'hat-stand')).not.toHaveProperty('ties');
    expect(itemOf(after, 'hat')).toBe(itemOf(plan, 'hat'));
  });
  test('PC-8 with a tom goes the arm whose socket held another', () => {
    const after = expectLaws(plan, { type: 'removePieces', setup, pieces: ['tom1'] });
    expect(itemOf(after, 'tom2').mount).toBeNull();
    const rackGone = expectLaws(plan, { type: 'removePieces', setup, pieces: ['front'] });
    expect([itemOf(rackGone, 'tom1').mount, itemOf(rackGone, 'tom2').mount, itemOf(rackGone, 'splash').mount]).toEqual([
      null,
      null,
      null,
    ]);
  });
  test('PC-8 through any number of sockets, in whatever order the pieces stand', () => {
    const carrierOf = (piece: string) => ({ on: 'socket' as const, piece, socket: 0 });
    const held = (id: string, by: string): Item => ({
      ...item(id, id, 'tom', 0, 0),
      mount: { carrier: carrierOf(by), clamp: null, arm: 'boom-1' },
    });
    const base: Item = {
      ...item('c', 'c', 'tom', 0, 0),
      mount: { carrier: { on: 'piece', piece: 'stand' }, clamp: null, arm: 'boom-1' },
    };
    const pieces = [held('z', 'a'), held('a', 'b'), held('b', 'c'), base, item('stand', 'Stand', 'hat-stand', 0, 0)];
    const chained = {
      ...plan,
      setups: {
        ...plan.setups,
        empty: {
          ...plan.setups.empty,
          pieces: Object.fromEntries(pieces.map((each) => [each.id, each])),
          order: ['z', 'a', 'b', 'c', 'stand'],
        },
      },
    };
    const after = expectLaws(chained, { type: 'removePieces', setup: 'empty', pieces: ['c'] });
    expect(Object.values(after.setups.empty.pieces).map((each) => (each as Item).mount)).toEqual([
      null,
      null,
      null,
      null,
    ]);
    expect(carriedBy(chained.setups.empty, 'stand')).toEqual(['z', 'a', 'b', 'c']);
  });
  test('everything at once', () => {
    const after = expectLaws(plan, { type: 'removePieces', setup, pieces: plan.setups.straight.order });
    expect(after.setups.straight.pieces).toEqual({});
  });
  test('refuses what is not there, and what is locked', () => {
    expectRefusal(plan, { type: 'removePieces', setup, pieces: ['ghost'] }, 'unknown', /"ghost"/);
    expectRefusal(plan, { type: 'removePieces', setup, pieces: [] }, 'nothing_asked', /Nothing/);
    const locked = expectLaws(plan, { type: 'setPiece', setup, piece: 'left', set: { locked: true } });
    expectRefusal(locked, { type: 'removePieces', setup, pieces: ['left'] }, 'piece_locked', /"Left rack" is locked/);
  });
});

describe('renamePiece, setPiece, orderPieces', () => {
  test('PC-9 a name', () => {
    const after = expectLaws(plan, { type: 'renamePiece', setup, piece: 'crash', name: 'Κύμβαλο' });
    expect(itemOf(after, 'crash').name).toBe('Κύμβαλο');
    expectRefusal(
      plan,
      { type: 'renamePiece', setup, piece: 'crash', name: 'x'.repeat(121) },
      'breaks_plan',
      /121 characters/,
    );
    expectRefusal(plan, { type: 'renamePiece', setup, piece: 'no', name: 'x' }, 'unknown', /no piece "no"/);
  });
  test('PC-10 every field of an item; null takes an optional one away', () => {
    const mount = {
      carrier: { on: 'leg' as const, rack: 'left', leg: 'l2', heightMm: 500 },
      clamp: 'clamp-own',
      arm: 'boom-1',
    };
    const set = {
      gear: 'tom',
      mount,
      legsTurnDeg: 30,
      note: 'spare head',
      second: { xMm: 1, yMm: 2, headingDeg: 3 },
      locked: true,
    };
    const after = expectLaws(plan, { type: 'setPiece', setup, piece: 'crash', set });
    expect(itemOf(after, 'crash')).toEqual({ ...itemOf(plan, 'crash'), ...set });
    const bare = expectLaws(after, {
      type: 'setPiece',
      setup,
      piece: 'crash',
      set: { legsTurnDeg: null, note: null, second: null, locked: null, mount: null },
    });
    expect(itemOf(bare, 'crash')).toEqual({ ...itemOf(plan, 'crash'), gear: 'tom', mount: null });
  });
  test('PC-11 letting go of an arm lets go of what sat in its sockets', () => {
    const after = expectLaws(plan, { type: 'setPiece', setup, piece: 'tom1', set: { mount: null } });
    expect(itemOf(after, 'tom2').mount).toBeNull();
  });

  describe('another arm, and what is in the sockets of the old one', () => {
    const carrier = { on: 'bar' as const, rack: 'front', bar: 'b3', atMm: 300 };
    const swap = (arm: string, platformArm: string | null = null) =>
      ({
        type: 'setPiece',
        setup,
        piece: 'tom1',
        set: { mount: { carrier, clamp: 'clamp-own', arm, platformArm } },
      }) as const;
    /** Tom 1 on a one-arm holder, the crash in its rear socket. */
    const rear = expectLaws(plan, {
      type: 'many',
      commands: [
        { type: 'setPiece', setup, piece: 'tom2', set: { mount: null } },
        swap('tom-holder-rear', 'l-arm'),
        {
          type: 'setPiece',
          setup,
          piece: 'crash',
          set: { mount: { carrier: { on: 'socket', piece: 'tom1', socket: 1 }, clamp: null, arm: 'boom-medium' } },
        },
      ],
    });
    const at = (after: typeof plan, id: string) => {
      const { carrier: on } = itemOf(after, id).mount!;
      return on.on === 'socket' ? on.socket : null;
    };

    test('PC-15 a crash in the rear socket stays in the rear one of a holder for two toms', () => {
      expect(at(expectLaws(rear, swap('tom-holder-double-rear', 'l-arm')), 'crash')).toBe(2);
      // And back.
      const back = expectLaws(
        expectLaws(rear, swap('tom-holder-double-rear', 'l-arm')),
        swap('tom-holder-rear', 'l-arm'),
      );
      expect(at(back, 'crash')).toBe(1);
    });

    test('PC-15 what has no socket on the new arm is named, and nothing happens', () => {
      expectRefusal(
        rear,
        swap('tom-holder-double', 'l-arm'),
        'socket_lost',
        /^"Left crash" is in a socket of what holds "Tom 1", and "Double tom holder" has none left that takes it/,
      );
      expectRefusal(rear, swap('boom-long'), 'socket_lost', /Left crash/);
    });

    test('PC-15 where names and kinds differ, any socket that takes the arm will do', () => {
      expect(at(expectLaws(plan, swap('boom-1')), 'tom2')).toBe(0);
      expect(at(expectLaws(rear, swap('boom-medium-socket')), 'crash')).toBe(0);
    });
  });
  test('a ring of mounts is refused', () => {
    const carrier = { on: 'socket' as const, piece: 'tom2', socket: 0 };
    expectRefusal(
      plan,
      { type: 'setPiece', setup, piece: 'tom1', set: { mount: { carrier, clamp: null, arm: 'platform-2' } } },
      'breaks_plan',
      /mounted in a ring/,
    );
  });
  test('a rack takes a note and a lock, and nothing of an item', () => {
    const after = expectLaws(plan, { type: 'setPiece', setup, piece: 'left', set: { note: 'mine', locked: true } });
    expect(after.setups.straight.pieces.left).toMatchObject({ note: 'mine', locked: true });
    expectRefusal(
      plan,
      { type: 'setPiece', setup, piece: 'left', set: { gear: 'tom' } },
      'not_an_item',
      /"Left rack" is a rack/,
    );
    expectRefusal(plan, { type: 'setPiece', setup, piece: 'left', set: {} }, 'nothing_asked', /Nothing/);
  });
  test('PC-12 an order', () => {
    const order = [...plan.setups.straight.order].reverse();
    expect(expectLaws(plan, { type: 'orderPieces', setup, order }).setups.straight.order).toEqual(order);
    expectRefusal(plan, { type: 'orderPieces', setup, order: order.slice(1) }, 'order_differs', /every piece once/);
    expectRefusal(
      plan,
      { type: 'orderPieces', setup, order: [...order.slice(1), order[1]] },
      'order_differs',
      /every piece once/,
    );
  });
});
