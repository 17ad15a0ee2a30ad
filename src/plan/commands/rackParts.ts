/** Commands on a rack's parts. A rack's first leg and heading stay; what follows from the bars follows. */
import type { Draft } from 'immer';
import { toDegrees } from '../../units.ts';
import { barOf } from '../mountRules.ts';
import { tidyDeg, tidyMm } from '../numbers.ts';
import { rackFrame } from '../rackFrame.ts';
import type { Bar, Leg, Rack, Span } from '../schema.ts';
import { detach } from './detach.ts';
import { draftRack, findFreeRack, type Refusal, type Rule, refuseNewId, writeFields } from './rule.ts';

export interface SetBar {
  readonly type: 'setBar';
  readonly setup: string;
  readonly rack: string;
  readonly bar: string;
  readonly set: Partial<Pick<Bar, 'tube' | 'cutLengthMm' | 'bend' | 'overhangMm' | 'heightMm'>>;
}

export interface SetLeg {
  readonly type: 'setLeg';
  readonly setup: string;
  readonly rack: string;
  readonly leg: string;
  readonly set: Partial<Pick<Leg, 'tube' | 'lengthMm' | 'foot'>>;
}

/** `span` counts from 0. */
export interface SetSpan {
  readonly type: 'setSpan';
  readonly setup: string;
  readonly rack: string;
  readonly span: number;
  readonly set: Partial<Pick<Span, 'turnDeg' | 'farOverhangMm'>>;
}

/**
 * Lengthen the chain at one end; the other legs stay. At the end, span.turnDeg is the joint angle at the leg that was
 * last; at the start it is the joint angle at the leg that was first, from the new span to the old one.
 */
export interface AddLeg {
  readonly type: 'addLeg';
  readonly setup: string;
  readonly rack: string;
  readonly at: 'start' | 'end';
  readonly leg: Leg;
  readonly span: Span;
}

/** Take away the first or the last leg with its span; the others stay. What hung there is held by nothing. */
export interface RemoveLeg {
  readonly type: 'removeLeg';
  readonly setup: string;
  readonly rack: string;
  readonly leg: string;
}

export interface AddBar {
  readonly type: 'addBar';
  readonly setup: string;
  readonly rack: string;
  readonly span: number;
  readonly bar: Bar;
}

/** Where the bar that set the legs' distance goes, the next one sets the same distance. */
export interface RemoveBar {
  readonly type: 'removeBar';
  readonly setup: string;
  readonly rack: string;
  readonly bar: string;
}

export type RackPartCommand = SetBar | SetLeg | SetSpan | AddLeg | RemoveLeg | AddBar | RemoveBar;

function unknownPart(what: 'leg' | 'bar' | 'span', id: string | number, rack: Rack): Refusal {
  return { code: 'unknown', what, id: what === 'span' ? String(Number(id) + 1) : String(id), where: rack.name };
}

const asksNothing = (set: object): boolean => Object.values(set).every((value) => value === undefined);

const setBar: Rule<SetBar> = {
  refuse(plan, { setup, rack, bar, set }) {
    const found = findFreeRack(plan, setup, rack);
    if (found.refusal) return found.refusal;
    if (!barOf(found.piece, bar)) return unknownPart('bar', bar, found.piece);
    return asksNothing(set) ? { code: 'nothing_asked' } : null;
  },
  apply(draft, { setup, rack, bar, set }) {
    const target = barOf(draftRack(draft, setup, rack) as Rack, bar)!;
    writeFields(target, set, ['tube', 'cutLengthMm', 'bend', 'overhangMm', 'heightMm']);
  },
};

const setLeg: Rule<SetLeg> = {
  refuse(plan, { setup, rack, leg, set }) {
    const found = findFreeRack(plan, setup, rack);
    if (found.refusal) return found.refusal;
    if (!found.piece.legs.some((each) => each.id === leg)) return unknownPart('leg', leg, found.piece);
    return asksNothing(set) ? { code: 'nothing_asked' } : null;
  },
  apply(draft, { setup, rack, leg, set }) {
    const target = draftRack(draft, setup, rack).legs.find((each) => each.id === leg)!;
    writeFields(target, set, ['tube', 'lengthMm', 'foot']);
  },
};

const setSpan: Rule<SetSpan> = {
  refuse(plan, { setup, rack, span, set }) {
    const found = findFreeRack(plan, setup, rack);
    if (found.refusal) return found.refusal;
    if (!found.piece.spans[span]) return unknownPart('span', span, found.piece);
    return asksNothing(set) ? { code: 'nothing_asked' } : null;
  },
  apply(draft, { setup, rack, span, set }) {
    writeFields(draftRack(draft, setup, rack).spans[span], set, ['turnDeg', 'farOverhangMm']);
  },
};

/** Turn the feet of legs from `first` on by an angle, to keep or change where they point when the rack's heading changes. */
export function turnFeet(legs: Draft<Leg>[], first: number, degrees: number): void {
  for (const leg of legs.slice(first)) if (leg.foot) leg.foot.headingDeg = tidyDeg(leg.foot.headingDeg + degrees);
}

const addLeg: Rule<AddLeg> = {
  refuse(plan, { setup, rack, leg, span }) {
    const found = findFreeRack(plan, setup, rack);
    if (found.refusal) return found.refusal;
    const wrong = refuseNewId(
      'leg',
      leg.id,
      found.piece.legs.some((each) => each.id === leg.id),
    );
    if (wrong) return wrong;
    for (const bar of span.bars) {
      const taken = refuseNewId('bar', bar.id, barOf(found.piece, bar.id) !== undefined);
      if (taken) return taken;
    }
    return null;
  },
  apply(draft, { setup, rack, at, leg, span }) {
    const target = draftRack(draft, setup, rack);
    if (at === 'end') {
      target.legs = [...target.legs, leg as Draft<Leg>];
      target.spans = [...target.spans, span as Draft<Span>];
      return;
    }
    const heading = tidyDeg(target.place.headingDeg - span.turnDeg);
    const turned = target.place.headingDeg - heading;
    // The feet are relative to the rack's heading, which is the new span's from now on.
    turnFeet(target.legs, 0, turned);
    target.legs = [leg as Draft<Leg>, ...target.legs];
    const [first, ...others] = target.spans;
    target.spans = [{ ...(span as Draft<Span>), turnDeg: 0 }, { ...first, turnDeg: span.turnDeg }, ...others];
    // Where would the second leg be? The chain moves back by that much.
    const { x, y } = secondLeg(target as Rack, heading);
    target.place.headingDeg = heading;
    target.place.xMm = tidyMm(target.place.xMm - x);
    target.place.yMm = tidyMm(target.place.yMm - y);
  },
};

/** The second leg seen from the first, for a rack with this heading. */
function secondLeg(rack: Rack, headingDeg: number): { x: number; y: number } {
  const [, second] = rackFrame({ ...rack, place: { ...rack.place, xMm: 0, yMm: 0, headingDeg } }).legs;
  return { x: second.x, y: second.y };
}

const removeLeg: Rule<RemoveLeg> = {
  refuse(plan, { setup, rack, leg }) {
    const found = findFreeRack(plan, setup, rack);
    if (found.refusal) return found.refusal;
    const { legs, name } = found.piece;
    const index = legs.findIndex((each) => each.id === leg);
    if (index < 0) return unknownPart('leg', leg, found.piece);
    if (legs.length === 2) return { code: 'two_legs_left', rack: name };
    return index === 0 || index === legs.length - 1 ? null : { code: 'inner_leg', rack: name };
  },
  apply(draft, { setup, rack, leg }, plan) {
    const target = draftRack(draft, setup, rack);
    const before = plan.setups[setup].pieces[rack] as Rack;
    const first = before.legs[0].id === leg;
    const lost = first ? before.spans[0] : before.spans[before.spans.length - 1];
    if (first) {
      const frame = rackFrame(before);
      const heading = tidyDeg(toDegrees(frame.headings[1]));
      target.legs = target.legs.slice(1);
      target.spans = [{ ...target.spans[1], turnDeg: 0 }, ...target.spans.slice(2)];
      turnFeet(target.legs, 0, before.place.headingDeg - heading);
      target.place.xMm = tidyMm(frame.legs[1].x);
      target.place.yMm = tidyMm(frame.legs[1].y);
      target.place.headingDeg = heading;
    } else {
      target.legs = target.legs.slice(0, -1);
      target.spans = target.spans.slice(0, -1);
    }
    const bars = new Set(lost.bars.map((bar) => bar.id));
    detach(draft, setup, (carrier) => {
      if (carrier.on === 'leg') return carrier.rack === rack && carrier.leg === leg;
      return carrier.on === 'bar' && carrier.rack === rack && bars.has(carrier.bar);
    });
  },
};

const addBar: Rule<AddBar> = {
  refuse(plan, { setup, rack, span, bar }) {
    const found = findFreeRack(plan, setup, rack);
    if (found.refusal) return found.refusal;
    if (!found.piece.spans[span]) return unknownPart('span', span, found.piece);
    return refuseNewId('bar', bar.id, barOf(found.piece, bar.id) !== undefined);
  },
  apply(draft, { setup, rack, span, bar }) {
    const target = draftRack(draft, setup, rack).spans[span];
    target.bars = [...target.bars, bar as Draft<Bar>];
  },
};

const removeBar: Rule<RemoveBar> = {
  refuse(plan, { setup, rack, bar }) {
    const found = findFreeRack(plan, setup, rack);
    if (found.refusal) return found.refusal;
    const span = found.piece.spans.find((each) => each.bars.some((one) => one.id === bar));
    if (!span) return unknownPart('bar', bar, found.piece);
    return span.bars.length === 1 ? { code: 'last_bar', rack: found.piece.name } : null;
  },
  apply(draft, { setup, rack, bar }, plan) {
    const before = plan.setups[setup].pieces[rack] as Rack;
    const index = before.spans.findIndex((each) => each.bars.some((one) => one.id === bar));
    const target = draftRack(draft, setup, rack).spans[index];
    if (target.bars[0].id === bar) {
      // The legs stay where they are if the next bar reaches; else its end decides.
      const next = rackFrame(before).bars.find((each) => each.span === index && each.index === 1);
      target.farOverhangMm = tidyMm(next?.farOverhangMm ?? 0);
    }
    target.bars = target.bars.filter((each) => each.id !== bar);
    detach(draft, setup, (carrier) => carrier.on === 'bar' && carrier.rack === rack && carrier.bar === bar);
  },
};

export const rackPartRules = { setBar, setLeg, setSpan, addLeg, removeLeg, addBar, removeBar } satisfies {
  [K in RackPartCommand['type']]: Rule<Extract<RackPartCommand, { type: K }>>;
};
