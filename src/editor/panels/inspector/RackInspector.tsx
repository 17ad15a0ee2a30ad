/** A rack in fields: where it stands, its legs and feet, its spans and bars, straight or bent. */
import { ChevronRight, Plus, Trash2 } from 'lucide-react';
import type { ReactNode } from 'react';
import { Button, Disclosure, DisclosurePanel, Heading } from 'react-aria-components';
import { roomForMore } from '../../../checks/barRoom.ts';
import { tubeDiameter } from '../../../layout/rackJoints.ts';
import { bowAway } from '../../../plan/bow.ts';
import type { Command } from '../../../plan/commands/index.ts';
import { bendCommand } from '../../../plan/commands/rackShape.ts';
import { type Bar, LIMITS, type Rack } from '../../../plan/schema.ts';
import { formatAngle, formatLength } from '../../../units.ts';
import { wayWord } from '../../../words/markWords.ts';
import { barName } from '../../../words/mountWords.ts';
import { liveOf } from '../../state/live.ts';
import { usePanel } from '../../state/panelContext.ts';
import { FieldRows } from '../fields/FieldRows.tsx';
import { Section, SwitchField } from '../fields/WordField.tsx';
import { gearOfPlan } from '../gear/shelf.ts';
import { IconButton } from '../shared/IconButton.tsx';
import { TextButton } from '../shared/TextButton.tsx';
import { unbroken } from '../shared/unbroken.ts';
import { bendViews } from './bendViews.ts';
import { BAR, LEG, RACK, SPAN } from './rackFields.ts';
import { nextBar, nextLeg } from './rackParts.ts';
import { travelApart, travelOf, travelTogether } from './travel.ts';

interface RackPartProps {
  readonly name: string;
  readonly tells: string;
  readonly children: ReactNode;
  /** Takes it away; null where it cannot go by itself. */
  readonly remove: Command | null;
  readonly isFixed: boolean;
}

/** A part of the rack that opens: its name, a line about it, its fields. */
function RackPart({ name, tells, children, remove, isFixed }: RackPartProps) {
  const { run } = usePanel();
  return (
    <Disclosure className="part">
      <div className="part-head">
        <Heading level={4}>
          <Button slot="trigger" className="part-trigger">
            <ChevronRight aria-hidden="true" />
            <span>{name[0].toUpperCase() + name.slice(1)}</span>
            <span className="part-tells">{tells}</span>
          </Button>
        </Heading>
        {remove && (
          <IconButton icon={Trash2} label={`Remove ${name}`} isDisabled={isFixed} onPress={() => run(remove)} />
        )}
      </div>
      <DisclosurePanel>
        <div className="part-body">{children}</div>
      </DisclosurePanel>
    </Disclosure>
  );
}

function shapeOf(bar: Bar): string {
  const views = bendViews(bar);
  return bar.bend === null ? 'straight' : (views && `bent ${formatAngle(views.angleDeg)}`) || 'bent';
}

export function RackInspector({ rack }: { readonly rack: Rack }) {
  const panel = usePanel();
  const { editor, plan, setupId, carries, run, isReadOnly } = panel;
  const here = { ...panel, rack };
  const isFixed = isReadOnly || rack.locked === true;
  const travel = travelOf(here, rack);
  const bars = rack.spans.flatMap((span) => span.bars);
  const bow = bowAway(plan, panel.setup, rack);
  const lastLeg = rack.legs[rack.legs.length - 1];
  const mm = (value: number) => formatLength(value, plan.units);
  return (
    <>
      <Section title="Rack">
        <FieldRows table={RACK} section="rack" of={here} />
        <SwitchField
          label="Carry pieces along"
          value={carries}
          isReadOnly={isReadOnly}
          onCommit={(is) => editor.set({ carries: is })}
        />
        <div className="button-row">
          <TextButton
            isDisabled={isFixed || bars.every(({ bend }) => bend !== null)}
            onPress={() => run(bendCommand(plan, setupId, rack, bow.side))}
          >
            Bend bars
          </TextButton>
          <TextButton
            isDisabled={isFixed || bars.every(({ bend }) => bend === null)}
            onPress={() => run(bendCommand(plan, setupId, rack, null))}
          >
            Straighten bars
          </TextButton>
        </div>
        <p className="hint">
          {bars.some(({ bend }) => bend === null) &&
            `Bend bows them away from the throne, to ${wayWord(bow.angleRad)}. `}
          Bending keeps every tube’s cut length: the legs come nearer to each other.
        </p>
        <div className="button-row">
          <TextButton isDisabled={isReadOnly || travel === 'together'} onPress={() => run(travelTogether(here, rack))}>
            Travel as it stands
          </TextButton>
          <TextButton isDisabled={isReadOnly || travel === 'apart'} onPress={() => run(travelApart(here, rack))}>
            Travel apart
          </TextButton>
        </div>
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
              <RackPart
                key={bar.id}
                name={barName(rack.spans.length, s, b, span.bars.length)}
                tells={`${mm(bar.cutLengthMm)}, ${shapeOf(bar)}`}
                isFixed={isFixed || span.bars.length === 1}
                remove={{ type: 'removeBar', setup: setupId, rack: rack.id, bar: bar.id }}
              >
                <BarRoomWords rack={rack} bar={bar} />
                <FieldRows table={BAR} section="bar" of={{ ...here, bar }} />
              </RackPart>
            ))}
          </div>
        ))}
      </Section>
      <Section
        title="Legs"
        actions={
          <IconButton
            icon={Plus}
            label="Add a leg at the end"
            isDisabled={isFixed || rack.legs.length >= LIMITS.legs}
            onPress={() => run({ type: 'addLeg', setup: setupId, rack: rack.id, at: 'end', ...nextLeg(rack) })}
          />
        }
      >
        {rack.legs.map((leg, i) => (
          <RackPart
            key={leg.id}
            name={`leg ${i + 1}`}
            tells={`${mm(leg.lengthMm)}${leg.foot === null ? '' : `, foot ${mm(leg.foot.lengthMm)}`}`}
            isFixed={isFixed}
            remove={
              rack.legs.length > 2 && (i === 0 || leg === lastLeg)
                ? { type: 'removeLeg', setup: setupId, rack: rack.id, leg: leg.id }
                : null
            }
          >
            <FieldRows table={LEG} section="leg" of={{ ...here, leg }} />
          </RackPart>
        ))}
      </Section>
      <Section title="Note">
        <FieldRows table={RACK} section="note" of={here} />
      </Section>
    </>
  );
}

interface AddBarButtonProps {
  readonly rack: Rack;
  readonly span: number;
  readonly isFixed: boolean;
}

function AddBarButton({ rack, span, isFixed }: AddBarButtonProps) {
  const { setupId, run } = usePanel();
  return (
    <IconButton
      icon={Plus}
      label={rack.spans.length === 1 ? 'Add a bar' : `Add a bar to span ${span + 1}`}
      isDisabled={isFixed || rack.spans[span].bars.length >= LIMITS.barsPerSpan}
      onPress={() => run({ type: 'addBar', setup: setupId, rack: rack.id, span, bar: nextBar(rack, span) })}
    />
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
  const mm = (value: number) => unbroken(formatLength(value, units));
  const more = clamp && roomForMore(room.stretches, clamp.widthMm);
  return (
    <p className="hint">
      Free: {mm(room.free)}, the longest stretch {mm(room.longestFree)}
      {clamp && `; room for ${more} more ${more === 1 ? 'clamp' : 'clamps'} ${mm(clamp.widthMm)} wide`}.
    </p>
  );
}
