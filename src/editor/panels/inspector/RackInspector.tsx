/** A rack in fields: where it stands, its legs and feet, its spans and bars, straight or bent. */
import { ChevronRight, Plus, Trash2 } from 'lucide-react';
import { Button, Disclosure, DisclosurePanel, Heading } from 'react-aria-components';
import { roomForMore } from '../../../checks/barRoom.ts';
import { tubeDiameter } from '../../../layout/rackJoints.ts';
import { bendCommand } from '../../../plan/commands/rackShape.ts';
import type { Bar, Leg, Rack } from '../../../plan/schema.ts';
import { formatAngle, formatLength } from '../../../units.ts';
import { barName } from '../../../words/mountWords.ts';
import { liveOf } from '../../state/live.ts';
import { placeCarrying } from '../../state/nudge.ts';
import { usePanel } from '../../state/panelContext.ts';
import { MeasureField } from '../fields/MeasureField.tsx';
import { angleMeasure, lengthMeasure } from '../fields/measures.ts';
import { ChoiceField, Section, SwitchField, WordField } from '../fields/WordField.tsx';
import { gearOfPlan } from '../gear/shelf.ts';
import { gearChoices, NONE, orNone } from '../shared/gearChoices.ts';
import { bendFor, bendViews } from './bendViews.ts';
import { nextBar, nextLeg } from './rackParts.ts';

/** A part of the rack that opens: its name, a line about it, its fields. */
function Part(props: {
  readonly title: string;
  readonly tells: string;
  readonly action?: React.ReactNode;
  readonly children: React.ReactNode;
}) {
  return (
    <Disclosure className="part">
      <div className="part-head">
        <Heading level={4}>
          <Button slot="trigger" className="part-trigger">
            <ChevronRight aria-hidden="true" />
            <span>{props.title}</span>
            <span className="part-tells">{props.tells}</span>
          </Button>
        </Heading>
        {props.action}
      </div>
      <DisclosurePanel>
        <div className="part-body">{props.children}</div>
      </DisclosurePanel>
    </Disclosure>
  );
}

export interface RackInspectorProps {
  readonly rack: Rack;
  /** Whether what hangs on the rack moves with it; left out where the page has no such switch. */
  readonly carryAlong?: { readonly value: boolean; readonly onChange: (value: boolean) => void };
}

export function RackInspector({ rack, carryAlong }: RackInspectorProps) {
  const { plan, setup, setupId, units, carries, run, isReadOnly } = usePanel();
  const isFixed = isReadOnly || rack.locked === true;
  const length = lengthMeasure(units);
  const at = { setup: setupId, rack: rack.id };
  const place = (fields: { xMm?: number; yMm?: number; headingDeg?: number }, gesture?: string) =>
    run(placeCarrying(setup, rack, fields, carries), gesture);
  const isBent = rack.spans.some(({ bars }) => bars.some(({ bend }) => bend !== null));
  const isStraight = rack.spans.some(({ bars }) => bars.some(({ bend }) => bend === null));
  const lastLeg = rack.legs[rack.legs.length - 1];

  return (
    <>
      <Section title="Rack">
        <WordField
          label="Name"
          value={rack.name}
          most={120}
          isReadOnly={isReadOnly}
          onCommit={(name) => run({ type: 'renamePiece', setup: setupId, piece: rack.id, name })}
        />
        <SwitchField
          label="Locked in place"
          value={rack.locked === true}
          isReadOnly={isReadOnly}
          onCommit={(locked) =>
            void run({ type: 'setPiece', setup: setupId, piece: rack.id, set: { locked: locked ? true : null } })
          }
        />
        {carryAlong !== undefined && (
          <SwitchField
            label="Carry pieces along"
            value={carryAlong.value}
            isReadOnly={isReadOnly}
            onCommit={carryAlong.onChange}
          />
        )}
        <div className="button-row">
          <Button
            className="button"
            isDisabled={isFixed || !isStraight}
            onPress={() => run(bendCommand(plan, setupId, rack, 'left'))}
          >
            Bend bars
          </Button>
          <Button
            className="button"
            isDisabled={isFixed || !isBent}
            onPress={() => run(bendCommand(plan, setupId, rack, null))}
          >
            Straighten bars
          </Button>
        </div>
        <p className="hint">Bending keeps every tube’s cut length: the legs come nearer to each other.</p>
      </Section>

      <Section title="Place of the first leg">
        <div className="field-grid">
          <MeasureField
            label="From centre"
            note="+ left"
            value={rack.place.xMm}
            measure={length}
            isReadOnly={isFixed}
            onCommit={(xMm, gesture) => place({ xMm }, gesture)}
          />
          <MeasureField
            label="Upstage"
            value={rack.place.yMm}
            measure={length}
            isReadOnly={isFixed}
            onCommit={(yMm, gesture) => place({ yMm }, gesture)}
          />
          <MeasureField
            label="Heading"
            note="of the first bar"
            value={rack.place.headingDeg}
            measure={angleMeasure()}
            isReadOnly={isFixed}
            onCommit={(headingDeg, gesture) => place({ headingDeg }, gesture)}
          />
        </div>
      </Section>

      <Section
        title="Bars"
        actions={rack.spans.length === 1 && <AddBarButton rack={rack} span={0} isFixed={isFixed} />}
      >
        {rack.spans.map((span, s) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a span is its place in the chain
          <div key={s} className="span">
            {rack.spans.length > 1 && (
              <div className="section-head">
                <h4>
                  Span {s + 1}, leg {s + 1} to leg {s + 2}
                </h4>
                <AddBarButton rack={rack} span={s} isFixed={isFixed} />
              </div>
            )}
            <div className="field-grid">
              {s > 0 && (
                <MeasureField
                  label={`Angle at leg ${s + 1}`}
                  value={span.turnDeg}
                  measure={angleMeasure()}
                  isReadOnly={isFixed}
                  onCommit={(turnDeg, gesture) => run({ type: 'setSpan', ...at, span: s, set: { turnDeg } }, gesture)}
                />
              )}
              <MeasureField
                label="Beyond the far leg"
                value={span.farOverhangMm}
                measure={lengthMeasure(units, { least: 0, most: 5000 })}
                isReadOnly={isFixed}
                onCommit={(farOverhangMm, gesture) =>
                  run({ type: 'setSpan', ...at, span: s, set: { farOverhangMm } }, gesture)
                }
              />
            </div>
            {span.bars.map((bar, b) => (
              <BarFields
                key={bar.id}
                rack={rack}
                bar={bar}
                name={barName(rack.spans.length, s, b, span.bars.length)}
                isFixed={isFixed}
                isOnly={span.bars.length === 1}
              />
            ))}
          </div>
        ))}
      </Section>

      <Section
        title="Legs"
        actions={
          <Button
            className="icon-button"
            aria-label="Add a leg at the end"
            isDisabled={isFixed || rack.legs.length >= 12}
            onPress={() => run({ type: 'addLeg', ...at, at: 'end', ...nextLeg(rack) })}
          >
            <Plus />
          </Button>
        }
      >
        {rack.legs.map((leg, i) => (
          <LegFields
            key={leg.id}
            rack={rack}
            leg={leg}
            number={i + 1}
            isFixed={isFixed}
            mayGo={rack.legs.length > 2 && (i === 0 || leg === lastLeg)}
          />
        ))}
      </Section>
      <Section title="Note">
        <WordField
          label="Note"
          value={rack.note ?? ''}
          most={4000}
          lines={2}
          mayBeEmpty
          isReadOnly={isReadOnly}
          onCommit={(note) =>
            run({ type: 'setPiece', setup: setupId, piece: rack.id, set: { note: note === '' ? null : note } })
          }
        />
      </Section>
    </>
  );
}

function AddBarButton({
  rack,
  span,
  isFixed,
}: {
  readonly rack: Rack;
  readonly span: number;
  readonly isFixed: boolean;
}) {
  const { setupId, run } = usePanel();
  return (
    <Button
      className="icon-button"
      aria-label={rack.spans.length === 1 ? 'Add a bar' : `Add a bar to span ${span + 1}`}
      isDisabled={isFixed || rack.spans[span].bars.length >= 6}
      onPress={() => run({ type: 'addBar', setup: setupId, rack: rack.id, span, bar: nextBar(rack, span) })}
    >
      <Plus />
    </Button>
  );
}

/** What is free on a bar, and how many more clamps for arms go there. */
function BarRoomWords({ rack, bar }: { readonly rack: Rack; readonly bar: Bar }) {
  const { plan, setupId, units } = usePanel();
  const { bars } = liveOf(plan, setupId).checked.rig.room;
  const room = bars.find((one) => one.piece === rack.id && one.bar === bar.id);
  if (!room) return null;
  const outside = tubeDiameter(plan.gear, bar.tube);
  const clamp = gearOfPlan(plan)
    .filter((one) => one.kind === 'clamp')
    .find(({ use, tubeMm: [least, most] }) => use === 'arm' && outside !== null && least <= outside && outside <= most);
  const mm = (value: number) => formatLength(value, units);
  const more = clamp && roomForMore(room.stretches, clamp.widthMm);
  return (
    <p className="hint">
      Free: {mm(room.free)}, the longest stretch {mm(room.longestFree)}
      {clamp && `; room for ${more} more ${more === 1 ? 'clamp' : 'clamps'} ${mm(clamp.widthMm)} wide`}.
    </p>
  );
}

interface BarFieldsProps {
  readonly rack: Rack;
  readonly bar: Bar;
  readonly name: string;
  readonly isFixed: boolean;
  readonly isOnly: boolean;
}

function BarFields({ rack, bar, name, isFixed, isOnly }: BarFieldsProps) {
  const { plan, setupId, units, run } = usePanel();
  const set = (fields: Partial<Bar>, gesture?: string) =>
    run({ type: 'setBar', setup: setupId, rack: rack.id, bar: bar.id, set: fields }, gesture);
  const size = lengthMeasure(units, { least: 0, most: 20_000 });
  const views = bendViews(bar);
  const bendBy = (view: 'radius' | 'rise' | 'chord') => (mm: number, gesture?: string) => {
    const made = bendFor(bar, view, mm);
    return made.ok ? set({ bend: made.bend }, gesture) : made.sentence;
  };
  const shape = bar.bend === null ? 'straight' : (views && `bent ${formatAngle(views.angleDeg)}`) || 'bent';
  return (
    <Part
      title={name[0].toUpperCase() + name.slice(1)}
      tells={`${formatLength(bar.cutLengthMm, units)}, ${shape}`}
      action={
        <Button
          className="icon-button"
          aria-label={`Remove ${name}`}
          isDisabled={isFixed || isOnly}
          onPress={() => run({ type: 'removeBar', setup: setupId, rack: rack.id, bar: bar.id })}
        >
          <Trash2 />
        </Button>
      }
    >
      <BarRoomWords rack={rack} bar={bar} />
      <ChoiceField
        label="Tube"
        value={bar.tube}
        isReadOnly={isFixed}
        choices={gearChoices(gearOfPlan(plan), (one) => one.kind === 'tube' && one.use === 'bar', bar.tube)}
        onCommit={(tube) => {
          const gear = gearOfPlan(plan).find(({ id }) => id === tube);
          if (gear?.kind !== 'tube') return set({ tube });
          // Another tube brings its own length and bend; overhangs and the bow's side stay.
          const bend =
            gear.bendRadiusMm === undefined
              ? null
              : {
                  radiusMm: gear.bendRadiusMm,
                  straightEndsMm: gear.straightEndsMm ?? 0,
                  side: bar.bend?.side ?? ('left' as const),
                };
          return set({ tube, cutLengthMm: gear.cutLengthMm, bend });
        }}
      />
      <div className="field-grid">
        <MeasureField
          label="Cut length"
          value={bar.cutLengthMm}
          measure={lengthMeasure(units, { least: 10, most: 20_000 })}
          isReadOnly={isFixed}
          onCommit={(cutLengthMm, gesture) => set({ cutLengthMm }, gesture)}
        />
        <MeasureField
          label="Height"
          value={bar.heightMm}
          measure={lengthMeasure(units, { least: 0, most: 5000 })}
          isReadOnly={isFixed}
          onCommit={(heightMm, gesture) => set({ heightMm }, gesture)}
        />
        <MeasureField
          label="Beyond the first leg"
          value={bar.overhangMm}
          measure={lengthMeasure(units, { least: 0, most: 5000 })}
          isReadOnly={isFixed}
          onCommit={(overhangMm, gesture) => set({ overhangMm }, gesture)}
        />
        {bar.bend !== null && (
          <>
            <MeasureField
              label="Bend radius"
              value={bar.bend.radiusMm}
              measure={size}
              isReadOnly={isFixed}
              onCommit={bendBy('radius')}
            />
            {views !== null && (
              <>
                <MeasureField
                  label="Rise"
                  value={views.riseMm}
                  measure={size}
                  isReadOnly={isFixed}
                  onCommit={bendBy('rise')}
                />
                <MeasureField
                  label="Chord, end to end"
                  value={views.chordMm}
                  measure={size}
                  isReadOnly={isFixed}
                  onCommit={bendBy('chord')}
                />
              </>
            )}
            <MeasureField
              label="Straight ends"
              value={bar.bend.straightEndsMm}
              measure={lengthMeasure(units, { least: 0, most: 5000 })}
              isReadOnly={isFixed}
              onCommit={(straightEndsMm, gesture) => set({ bend: { ...bar.bend!, straightEndsMm } }, gesture)}
            />
            <ChoiceField
              label="Bows to"
              value={bar.bend.side}
              choices={[
                { id: 'left', label: 'the left, going along it' },
                { id: 'right', label: 'the right, going along it' },
              ]}
              isReadOnly={isFixed}
              onCommit={(side) => set({ bend: { ...bar.bend!, side: side as 'left' | 'right' } })}
            />
          </>
        )}
      </div>
    </Part>
  );
}

interface LegFieldsProps {
  readonly rack: Rack;
  readonly leg: Leg;
  readonly number: number;
  readonly isFixed: boolean;
  readonly mayGo: boolean;
}

function LegFields({ rack, leg, number, isFixed, mayGo }: LegFieldsProps) {
  const { plan, setupId, units, run } = usePanel();
  const gear = gearOfPlan(plan);
  const set = (fields: Partial<Leg>, gesture?: string) =>
    run({ type: 'setLeg', setup: setupId, rack: rack.id, leg: leg.id, set: fields }, gesture);
  const { foot } = leg;
  return (
    <Part
      title={`Leg ${number}`}
      tells={`${formatLength(leg.lengthMm, units)}${foot === null ? '' : `, foot ${formatLength(foot.lengthMm, units)}`}`}
      action={
        mayGo && (
          <Button
            className="icon-button"
            aria-label={`Remove leg ${number}`}
            isDisabled={isFixed}
            onPress={() => run({ type: 'removeLeg', setup: setupId, rack: rack.id, leg: leg.id })}
          >
            <Trash2 />
          </Button>
        )
      }
    >
      <div className="field-grid">
        <ChoiceField
          label="Upright"
          value={leg.tube}
          choices={gearChoices(gear, (one) => one.kind === 'tube' && one.use === 'upright', leg.tube)}
          isReadOnly={isFixed}
          onCommit={(tube) => {
            const chosen = gear.find(({ id }) => id === tube);
            return set({ tube, lengthMm: chosen?.kind === 'tube' ? chosen.cutLengthMm : leg.lengthMm });
          }}
        />
        <MeasureField
          label="Upright length"
          value={leg.lengthMm}
          measure={lengthMeasure(units, { least: 10, most: 5000 })}
          isReadOnly={isFixed}
          onCommit={(lengthMm, gesture) => set({ lengthMm }, gesture)}
        />
        <ChoiceField
          label="Foot"
          value={foot?.gear ?? NONE}
          choices={orNone(
            gearChoices(gear, ({ kind }) => kind === 'foot', foot?.gear ?? null),
            'No foot',
          )}
          isReadOnly={isFixed}
          onCommit={(id) => {
            if (id === NONE) return set({ foot: null });
            const chosen = gear.find((one) => one.id === id);
            const lengthMm = chosen?.kind === 'foot' ? chosen.lengthMm : (foot?.lengthMm ?? 500);
            return set({ foot: { headingDeg: 90, ...foot, gear: id, lengthMm } });
          }}
        />
        {foot !== null && (
          <>
            <MeasureField
              label="Foot length"
              value={foot.lengthMm}
              measure={lengthMeasure(units, { least: 10, most: 2000 })}
              isReadOnly={isFixed}
              onCommit={(lengthMm, gesture) => set({ foot: { ...foot, lengthMm } }, gesture)}
            />
            <MeasureField
              label="Foot turned"
              note="0 along the bar"
              value={foot.headingDeg}
              measure={angleMeasure()}
              isReadOnly={isFixed}
              onCommit={(headingDeg, gesture) => set({ foot: { ...foot, headingDeg } }, gesture)}
            />
          </>
        )}
      </div>
    </Part>
  );
}
