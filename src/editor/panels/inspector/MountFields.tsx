/** How a piece is held: on what, where along it, by which clamp and which arm. */
import { isArm, isSocketArm, socketWord } from '../../../gear/kinds.ts';
import type { Gear } from '../../../gear/schema.ts';
import type { Carrier, Item, Mount, Piece } from '../../../plan/schema.ts';
import { usePanel } from '../../state/panelContext.ts';
import { MeasureField } from '../fields/MeasureField.tsx';
import { lengthMeasure } from '../fields/measures.ts';
import { ChoiceField, Section } from '../fields/WordField.tsx';
import { gearOfPlan } from '../gear/shelf.ts';
import { gearChoices, NONE, orNone } from '../shared/gearChoices.ts';
import { carrierChoices, carrierFrom, carrierKey, ON_DECK, socketsAt } from './carriers.ts';
import { FindMount } from './FindMount.tsx';

type Commit<T> = (value: T, gesture?: string) => string | null;

export interface CarrierPlaceProps {
  readonly carrier: Carrier;
  readonly isFixed: boolean;
  readonly onCarrier: Commit<Carrier>;
}

/** How long the tube is that a carrier is on, mm: no clamp goes beyond its end. */
function tubeLength(carrier: Carrier, holder: Piece | undefined): number {
  const MOST_MM = 20_000;
  if (holder?.kind !== 'rack') return MOST_MM;
  if (carrier.on === 'leg') return holder.legs.find(({ id }) => id === carrier.leg)?.lengthMm ?? MOST_MM;
  if (carrier.on !== 'bar') return MOST_MM;
  const bars = holder.spans.flatMap((span) => span.bars);
  return bars.find(({ id }) => id === carrier.bar)?.cutLengthMm ?? MOST_MM;
}

/** Joints and collars hold tubes, not arms. */
export const holdsArms = (gear: Gear): boolean =>
  gear.kind === 'clamp' && (gear.use === 'arm' || gear.use === 'swivel');

/** Where on its carrier: along a bar, up a leg, in which socket. */
export function CarrierPlace({ carrier, isFixed, onCarrier }: CarrierPlaceProps) {
  const { plan, setup, units } = usePanel();
  const holder = setup.pieces[carrier.on === 'bar' || carrier.on === 'leg' ? carrier.rack : carrier.piece];
  if (carrier.on === 'bar')
    return (
      <MeasureField
        label="Along the bar"
        value={carrier.atMm}
        measure={lengthMeasure(units, { least: 0, most: tubeLength(carrier, holder) })}
        isReadOnly={isFixed}
        onCommit={(atMm, gesture) => onCarrier({ ...carrier, atMm }, gesture)}
      />
    );
  if (carrier.on === 'leg')
    return (
      <MeasureField
        label="Up the leg"
        value={carrier.heightMm}
        measure={lengthMeasure(units, { least: 0, most: tubeLength(carrier, holder) })}
        isReadOnly={isFixed}
        onCommit={(heightMm, gesture) => onCarrier({ ...carrier, heightMm }, gesture)}
      />
    );
  if (carrier.on === 'socket') {
    const words = holder?.kind === 'item' ? socketsAt(plan, holder) : [];
    const numbers = Array.from({ length: Math.max(words.length, carrier.socket + 1) }, (_, i) => i);
    const label = (n: number) => words[n] ?? socketWord(undefined, n);
    return (
      <ChoiceField
        label="Socket"
        value={String(carrier.socket)}
        choices={numbers.map((n) => ({ id: String(n), label: label(n)[0].toUpperCase() + label(n).slice(1) }))}
        isReadOnly={isFixed}
        onCommit={(socket) => onCarrier({ ...carrier, socket: Number(socket) })}
      />
    );
  }
  return null;
}

export interface MountFieldsProps {
  readonly item: Item;
  readonly isFixed: boolean;
  readonly onMount: Commit<Mount | null>;
}

export function MountFields({ item, isFixed, onMount }: MountFieldsProps) {
  const { plan, setup } = usePanel();
  const { mount } = item;
  const gear = gearOfPlan(plan);
  const isPlatform = (id: string | null | undefined) =>
    typeof id === 'string' && gear.some((one) => one.id === id && one.kind === 'platform');
  const fitsPlatform = (id: string | null) => gear.some((one) => one.id === id && isSocketArm(one));
  const hold = (key: string) => {
    if (key === ON_DECK) return onMount(null);
    const carrier = carrierFrom(key, setup, item);
    if (carrier === null) return 'That is not in this setup any more.';
    // Stands and bass drums hold without parts; a bar or a leg needs a clamp, and a first guess is better than none.
    const clampNeeded = carrier.on === 'bar' || carrier.on === 'leg';
    const clamp = clampNeeded
      ? (mount?.clamp ?? gear.find((one) => one.kind === 'clamp' && one.use === 'arm')?.id ?? null)
      : null;
    return onMount({ ...mount, carrier, clamp, arm: mount?.arm ?? null });
  };
  return (
    <Section title="Held by">
      <ChoiceField
        label="Carried by"
        value={mount === null ? ON_DECK : carrierKey(mount.carrier)}
        choices={[{ id: ON_DECK, label: 'Stands on the deck' }, ...carrierChoices(plan, setup, item)]}
        isReadOnly={isFixed}
        onCommit={hold}
      />
      {mount !== null && (
        <div className="field-grid">
          <CarrierPlace
            carrier={mount.carrier}
            isFixed={isFixed}
            onCarrier={(carrier, gesture) => onMount({ ...mount, carrier }, gesture)}
          />
          <ChoiceField
            label="Clamp"
            value={mount.clamp ?? NONE}
            choices={orNone(gearChoices(gear, holdsArms, mount.clamp), 'No clamp')}
            isReadOnly={isFixed}
            onCommit={(clamp) => onMount({ ...mount, clamp: clamp === NONE ? null : clamp })}
          />
          <ChoiceField
            label="Arm"
            value={mount.arm ?? NONE}
            choices={orNone(gearChoices(gear, isArm, mount.arm), 'No arm')}
            isReadOnly={isFixed}
            onCommit={(chosen) => {
              const arm = chosen === NONE ? null : chosen;
              const { platformArm, ...bare } = mount;
              if (!isPlatform(arm)) return onMount({ ...bare, arm });
              // What held it until now goes into the platform's socket.
              return onMount({
                ...bare,
                arm,
                platformArm: platformArm ?? (fitsPlatform(mount.arm) ? mount.arm : null),
              });
            }}
          />
          {isPlatform(mount.arm) && (
            <ChoiceField
              label="Arm in the platform"
              value={mount.platformArm ?? NONE}
              choices={orNone(gearChoices(gear, isSocketArm, mount.platformArm ?? null), 'No arm')}
              isReadOnly={isFixed}
              onCommit={(arm) => onMount({ ...mount, platformArm: arm === NONE ? null : arm })}
            />
          )}
        </div>
      )}
      {!isFixed && <FindMount item={item} isFixed={isFixed} onMount={onMount} />}
    </Section>
  );
}
