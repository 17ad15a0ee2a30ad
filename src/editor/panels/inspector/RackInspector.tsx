/** A rack in fields: where it stands, its legs and feet, its spans and bars, straight or bent. */
import { ChevronRight, Plus, Trash2 } from 'lucide-react';
import { Button, Disclosure, DisclosurePanel, Heading } from 'react-aria-components';
import { roomForMore } from '../../../checks/barRoom.ts';
import { tubeDiameter } from '../../../layout/rackJoints.ts';
import { bendCommand } from '../../../plan/commands/rackShape.ts';
import { type Bar, LIMITS, type Rack } from '../../../plan/schema.ts';
import { formatAngle, formatLength } from '../../../units.ts';
import { barName } from '../../../words/mountWords.ts';
import { liveOf } from '../../state/live.ts';
import { usePanel } from '../../state/panelContext.ts';
import { FieldRows } from '../fields/FieldRows.tsx';
import { Section, SwitchField } from '../fields/WordField.tsx';
import { gearOfPlan } from '../gear/shelf.ts';
import { IconButton } from '../shared/IconButton.tsx';
import { bendViews } from './bendViews.ts';
import { BAR, type BarHere, LEG, type LegHere, RACK, SPAN } from './rackFields.ts';
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
  const panel = usePanel();
  const { plan, setupId, run, isReadOnly } = panel;
  const here = { ...panel, rack };
  const isFixed = isReadOnly || rack.locked === true;
  const bars = rack.spans.flatMap((span) => span.bars);
  const lastLeg = rack.legs[rack.legs.length - 1];
  return (
    <>
      <Section title="Rack">
        <FieldRows table={RACK} section="rack" of={here} />
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
            isDisabled={isFixed || bars.every(({ bend }) => bend !== null)}
            onPress={() => run(bendCommand(plan, setupId, rack, 'left'))}
          >
            Bend bars
          </Button>
          <Button
            className="button"
            isDisabled={isFixed || bars.every(({ bend }) => bend === null)}
            onPress={() => run(bendCommand(plan, setupId, rack, null))}
          >
            Straighten bars
          </Button>
        </div>
        <p className="hint">Bending keeps every tube’s cut length: the legs come nearer to each other.</p>
      </Section>
      <Section title="Place of the first leg">
        <FieldRows table={RACK} section="place" of={here} />
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
            <FieldRows table={SPAN} section="span" of={{ ...here, at: s }} />
            {span.bars.map((bar, b) => (
              <BarFields
                key={bar.id}
                here={{ ...here, bar }}
                name={barName(rack.spans.length, s, b, span.bars.length)}
                isFixed={isFixed || span.bars.length === 1}
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
            isDisabled={isFixed || rack.legs.length >= LIMITS.legs}
            onPress={() => run({ type: 'addLeg', setup: setupId, rack: rack.id, at: 'end', ...nextLeg(rack) })}
          >
            <Plus />
          </Button>
        }
      >
        {rack.legs.map((leg, i) => (
          <LegFields
            key={leg.id}
            here={{ ...here, leg }}
            number={i + 1}
            isFixed={isFixed}
            mayGo={rack.legs.length > 2 && (i === 0 || leg === lastLeg)}
          />
        ))}
      </Section>
      <Section title="Note">
        <FieldRows table={RACK} section="note" of={here} />
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
      isDisabled={isFixed || rack.spans[span].bars.length >= LIMITS.barsPerSpan}
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
  readonly here: BarHere;
  readonly name: string;
  /** Whether it cannot be taken away. */
  readonly isFixed: boolean;
}

function BarFields({ here, name, isFixed }: BarFieldsProps) {
  const { setupId, units, run } = usePanel();
  const { rack, bar } = here;
  const views = bendViews(bar);
  const shape = bar.bend === null ? 'straight' : (views && `bent ${formatAngle(views.angleDeg)}`) || 'bent';
  return (
    <Part
      title={name[0].toUpperCase() + name.slice(1)}
      tells={`${formatLength(bar.cutLengthMm, units)}, ${shape}`}
      action={
        <IconButton
          icon={Trash2}
          label={`Remove ${name}`}
          isDisabled={isFixed}
          onPress={() => run({ type: 'removeBar', setup: setupId, rack: rack.id, bar: bar.id })}
        />
      }
    >
      <BarRoomWords rack={rack} bar={bar} />
      <FieldRows table={BAR} section="bar" of={here} />
    </Part>
  );
}

interface LegFieldsProps {
  readonly here: LegHere;
  readonly number: number;
  readonly isFixed: boolean;
  readonly mayGo: boolean;
}

function LegFields({ here, number, isFixed, mayGo }: LegFieldsProps) {
  const { setupId, units, run } = usePanel();
  const { rack, leg } = here;
  const foot = leg.foot === null ? '' : `, foot ${formatLength(leg.foot.lengthMm, units)}`;
  return (
    <Part
      title={`Leg ${number}`}
      tells={`${formatLength(leg.lengthMm, units)}${foot}`}
      action={
        mayGo && (
          <IconButton
            icon={Trash2}
            label={`Remove leg ${number}`}
            isDisabled={isFixed}
            onPress={() => run({ type: 'removeLeg', setup: setupId, rack: rack.id, leg: leg.id })}
          />
        )
      }
    >
      <FieldRows table={LEG} section="leg" of={here} />
    </Part>
  );
}
