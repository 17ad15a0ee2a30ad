/** Commands on a rack's parts. A rack's first leg and heading stay; what follows from the bars follows. */
import type { Draft } from 'immer';
import { toDegrees } from '../../units.ts';
import { barOf } from '../carriers.ts';
import { tidyDeg, tidyMm } from '../numbers.ts';
import { rackFrame } from '../rackFrame.ts';
import type { Bar, Leg, Rack, Span } from '../schema.ts';
import { detach } from './detach.ts';
import {
  draftRack,
  type OnRack,
  onFreeRack,
  type Refusal,
  type Rule,
  type RulesOf,
  refuseEmpty,
  refuseNewId,
  writeFields,
} from './rule.ts';

export interface SetBar extends OnRack<'setBar'> {
  readonly bar: string;
  readonly set: Partial<Pick<Bar, 'tube' | 'cutLengthMm' | 'bend' | 'overhangMm' | 'heightMm'>>;
}

export interface SetLeg extends OnRack<'setLeg'> {
  readonly leg: string;
  readonly set: Partial<Pick<Leg, 'tube' | 'lengthMm' | 'foot'>>;
}

/** `span` counts from 0. */
export interface SetSpan extends OnRack<'setSpan'> {
  readonly span: number;
  readonly set: Partial<Pick<Span, 'turnDeg' | 'farOverhangMm'>>;
}

/**
 * Lengthen the chain at one end; the other legs stay. At the end, span.turnDeg is the joint angle at the leg that was
 * last; at the start it is the joint angle at the leg that was first, from the new span to the old one.
 */
export interface AddLeg extends OnRack<'addLeg'> {
  readonly at: 'start' | 'end';
  readonly leg: Leg;
  readonly span: Span;
}

/** Take away the first or the last leg with its span; the others stay. What hung there is held by nothing. */
export interface RemoveLeg extends OnRack<'removeLeg'> {
  readonly leg: string;
}

export interface AddBar extends OnRack<'addBar'> {
  readonly span: number;
  readonly bar: Bar;
}

/** Where the bar that set the legs' distance goes, the next one sets the same distance. */
export interface RemoveBar extends OnRack<'removeBar'> {
  readonly bar: string;
}

export type RackPartCommand = SetBar | SetLeg | SetSpan | AddLeg | RemoveLeg | AddBar | RemoveBar;

function unknownPart(what: 'leg' | 'bar' | 'span', id: string | number, rack: Rack): Refusal {
  return { code: 'unknown', what, id: what === 'span' ? String(Number(id) + 1) : String(id), where: rack.name };
}

const hasLeg = ({ legs }: Rack, id: string): boolean => legs.some((leg) => leg.id === id);

const setBar: Rule<SetBar> = {
  refuse: onFreeRack((rack, { bar, set }) => (barOf(rack, bar) ? refuseEmpty(set) : unknownPart('bar', bar, rack))),
  apply(draft, { setup, rack, bar, set }) {
    const target = barOf(draftRack(draft, setup, rack) as Rack, bar)!;
    writeFields(target, set, ['tube', 'cutLengthMm', 'bend', 'overhangMm', 'heightMm']);
  },
};

const setLeg: Rule<SetLeg> = {
  refuse: onFreeRack((rack, { leg, set }) => (hasLeg(rack, leg) ? refuseEmpty(set) : unknownPart('leg', leg, rack))),
  apply(draft, { setup, rack, leg, set }) {
    const target = draftRack(draft, setup, rack).legs.find((each) => each.id === leg)!;
    writeFields(target, set, ['tube', 'lengthMm', 'foot']);
  },
};

const setSpan: Rule<SetSpan> = {
  refuse: onFreeRack((rack, { span, set }) => (rack.spans[span] ? refuseEmpty(set) : unknownPart('span', span, rack))),
  apply(draft, { setup, rack, span, set }) {
    writeFields(draftRack(draft, setup, rack).spans[span], set, ['turnDeg', 'farOverhangMm']);
  },
};

/** Turn the feet of legs from `first` on by an angle, to keep or change where they point when the rack's heading changes. */
export function turnFeet(legs: Draft<Leg>[], first: number, degrees: number): void {
  for (const leg of legs.slice(first)) if (leg.foot) leg.foot.headingDeg = tidyDeg(leg.foot.headingDeg + degrees);
}

const newBar = (rack: Rack, id: string) => refuseNewId('bar', id, barOf(rack, id) !== undefined);

const addLeg: Rule<AddLeg> = {
  refuse: onFreeRack((rack, { leg, span }) => {
    const wrong = refuseNewId('leg', leg.id, hasLeg(rack, leg.id));
    return span.bars.reduce((found, { id }) => found ?? newBar(rack, id), wrong);
  }),
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
  refuse: onFreeRack((rack, { leg }) => {
    const { legs, name } = rack;
    const index = legs.findIndex((each) => each.id === leg);
    if (index < 0) return unknownPart('leg', leg, rack);
    if (legs.length === 2) return { code: 'two_legs_left', rack: name };
    return index === 0 || index === legs.length - 1 ? null : { code: 'inner_leg', rack: name };
  }),
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
  refuse: onFreeRack((rack, { span, bar }) =>
    rack.spans[span] ? newBar(rack, bar.id) : unknownPart('span', span, rack),
  ),
  apply(draft, { setup, rack, span, bar }) {
    const target = draftRack(draft, setup, rack).spans[span];
    target.bars = [...target.bars, bar as Draft<Bar>];
  },
};

const removeBar: Rule<RemoveBar> = {
  refuse: onFreeRack((rack, { bar }) => {
    const span = rack.spans.find((each) => each.bars.some((one) => one.id === bar));
    if (!span) return unknownPart('bar', bar, rack);
    return span.bars.length === 1 ? { code: 'last_bar', rack: rack.name } : null;
  }),
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

export const rackPartRules = {
  setBar,
  setLeg,
  setSpan,
  addLeg,
  removeLeg,
  addBar,
  removeBar,
} satisfies RulesOf<RackPartCommand>;
