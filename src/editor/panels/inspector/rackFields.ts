/** The fields of a rack, its spans, its bars and its legs. */
import { bendOfTube, bowAngle, bowAway } from '../../../plan/bow.ts';
import { type Bar, type Leg, planSchema, type Rack } from '../../../plan/schema.ts';
import { wayWord } from '../../../words/markWords.ts';
import { fieldAt, schemaAt } from '../fields/bounds.ts';
import { type Change, type FieldTable, type Here, NONE, type NumberRow, patched } from '../fields/rows.ts';
import { gearOfPlan } from '../gear/shelf.ts';
import { gearChoices, orNone } from '../shared/gearChoices.ts';
import { bendFor, bendViews } from './bendViews.ts';
import { ofAnyPiece, writePiece } from './pieceFields.ts';

export interface RackHere extends Here {
  readonly rack: Rack;
}

const ANY = ofAnyPiece<RackHere>();
const isLocked = ({ rack }: RackHere): boolean => rack.locked === true;

export const RACK = {
  schema: schemaAt(planSchema, 'setups.pieces.rack'),
  record: ({ rack }) => rack,
  write: (here, keys, value) => writePiece(here, here.rack, keys, value),
  isLocked,
  sections: {
    rack: [ANY.name, { ...ANY.load, placeholder: 'its frame by itself' } as typeof ANY.load, ANY.lock],
    place: [ANY.x, ANY.y, { path: 'place.headingDeg', label: 'Heading', note: 'of the first bar' }],
    note: [ANY.note],
  },
} satisfies FieldTable<RackHere>;

/** `at`: which span, from 0. */
export interface SpanHere extends RackHere {
  readonly at: number;
}

export const SPAN = {
  schema: schemaAt(planSchema, 'setups.pieces.rack.spans'),
  record: ({ rack, at }) => rack.spans[at],
  write: ({ setupId, rack, at }, keys, value) => ({
    type: 'setSpan',
    setup: setupId,
    rack: rack.id,
    span: at,
    set: patched(rack.spans[at], keys, value),
  }),
  isLocked,
  sections: {
    span: [
      { path: 'turnDeg', label: ({ at }) => `Angle at leg ${at + 1}`, when: ({ at }) => at > 0 },
      { path: 'farOverhangMm', label: 'Beyond the far leg' },
    ],
  },
} satisfies FieldTable<SpanHere>;

export interface BarHere extends RackHere {
  readonly bar: Bar;
}

const BAR_SCHEMA = schemaAt(planSchema, 'setups.pieces.rack.spans.bars');
const setBar = ({ setupId, rack, bar }: BarHere, set: Partial<Bar>): Change => ({
  type: 'setBar',
  setup: setupId,
  rack: rack.id,
  bar: bar.id,
  set,
});

/** One of the three views of a bend: the plan holds the radius, the others are worked out from it. */
const bendRow = (view: 'radius' | 'rise' | 'chord', label: string): NumberRow<BarHere> => ({
  path: view === 'radius' ? 'bend.radiusMm' : `${view}Mm`,
  label,
  ...(view === 'radius'
    ? { when: ({ bar }) => bar.bend !== null }
    : {
        derived: true,
        when: ({ bar }) => bendViews(bar) !== null,
        value: ({ bar }) => bendViews(bar)?.[`${view}Mm`] ?? null,
        bounds: { least: 0, most: fieldAt(BAR_SCHEMA, 'cutLengthMm').most },
      }),
  set: (here, mm) => {
    const made = bendFor(here.bar, view, mm);
    return made.ok ? setBar(here, { bend: made.bend }) : { refusal: made.sentence };
  },
});

export const BAR = {
  schema: BAR_SCHEMA,
  record: ({ bar }) => bar,
  write: (here, keys, value) => setBar(here, patched(here.bar, keys, value)),
  isLocked,
  sections: {
    bar: [
      {
        as: 'choice',
        path: 'tube',
        label: 'Tube',
        choices: ({ plan, bar }) =>
          gearChoices(gearOfPlan(plan), (one) => one.kind === 'tube' && one.use === 'bar', bar.tube),
        set: (here, tube) => {
          const gear = gearOfPlan(here.plan).find(({ id }) => id === tube);
          if (gear?.kind !== 'tube') return setBar(here, { tube });
          // Another tube brings its own length and bend; overhangs and the bow's side stay.
          const bend = bendOfTube(gear, here.bar.bend?.side ?? bowAway(here.plan, here.setup, here.rack).side);
          return setBar(here, { tube, cutLengthMm: gear.cutLengthMm, bend });
        },
      },
      { path: 'cutLengthMm', label: 'Cut length' },
      { path: 'heightMm', label: 'Height' },
      { path: 'overhangMm', label: 'Beyond the first leg' },
      bendRow('radius', 'Bend radius'),
      bendRow('rise', 'Rise'),
      bendRow('chord', 'Chord, end to end'),
      { path: 'bend.straightEndsMm', label: 'Straight ends', when: ({ bar }) => bar.bend !== null },
      {
        as: 'choice',
        path: 'bend.side',
        label: 'Bows to',
        when: ({ bar }) => bar.bend !== null,
        choices: ({ rack, bar }) =>
          (['left', 'right'] as const).map((side) => ({
            id: side,
            label: `${side} from leg 1 (${wayWord(bowAngle(rack, bar.id, side))})`,
          })),
      },
    ],
  },
} satisfies FieldTable<BarHere>;

export interface LegHere extends RackHere {
  readonly leg: Leg;
}

const setLeg = ({ setupId, rack, leg }: LegHere, set: Partial<Leg>): Change => ({
  type: 'setLeg',
  setup: setupId,
  rack: rack.id,
  leg: leg.id,
  set,
});
/** A foot before its gear is known: across the bar, half a metre long. Common practice, no source. */
const USUAL_FOOT = { headingDeg: 90, lengthMm: 500 };
const hasFoot = ({ leg }: LegHere): boolean => leg.foot !== null;

export const LEG = {
  schema: schemaAt(planSchema, 'setups.pieces.rack.legs'),
  record: ({ leg }) => leg,
  write: (here, keys, value) => setLeg(here, patched(here.leg, keys, value)),
  isLocked,
  sections: {
    leg: [
      {
        as: 'choice',
        path: 'tube',
        label: 'Upright',
        choices: ({ plan, leg }) =>
          gearChoices(gearOfPlan(plan), (one) => one.kind === 'tube' && one.use === 'upright', leg.tube),
        set: (here, tube) => {
          const chosen = gearOfPlan(here.plan).find(({ id }) => id === tube);
          return setLeg(here, { tube, lengthMm: chosen?.kind === 'tube' ? chosen.cutLengthMm : here.leg.lengthMm });
        },
      },
      { path: 'lengthMm', label: 'Upright length' },
      {
        as: 'choice',
        path: 'foot',
        label: 'Foot',
        value: ({ leg }) => leg.foot?.gear ?? NONE,
        choices: ({ plan, leg }) =>
          orNone(
            gearChoices(gearOfPlan(plan), ({ kind }) => kind === 'foot', leg.foot?.gear ?? null),
            'No foot',
          ),
        set: (here, gear) => {
          if (gear === NONE) return setLeg(here, { foot: null });
          const chosen = gearOfPlan(here.plan).find(({ id }) => id === gear);
          const old = { ...USUAL_FOOT, ...here.leg.foot };
          const lengthMm = chosen?.kind === 'foot' ? chosen.lengthMm : old.lengthMm;
          return setLeg(here, { foot: { ...old, gear, lengthMm } });
        },
      },
      {
        path: 'foot.lengthMm',
        label: 'Foot length',
        when: hasFoot,
      },
      { path: 'foot.headingDeg', label: 'Foot turned', note: '0 along the bar', when: hasFoot },
    ],
  },
} satisfies FieldTable<LegHere>;
