/** Whom the setup is set for: chosen, added, measured. */
import { Trash2 } from 'lucide-react';
import type { SpotReach } from '../../../drummer/arms.ts';
import { leadingHand } from '../../../drummer/figure.ts';
import { type Drummer, LIMITS } from '../../../plan/schema.ts';
import { type DisplayUnit, formatAngle, formatLength, toDegrees } from '../../../units.ts';
import { pieceName } from '../../../words/names.ts';
import { liveOf } from '../../state/live.ts';
import { usePanel } from '../../state/panelContext.ts';
import { FieldRows } from '../fields/FieldRows.tsx';
import { NONE } from '../fields/rows.ts';
import { ChoiceField, Section } from '../fields/WordField.tsx';
import { identity } from '../gear/newPiece.ts';
import { orNone } from '../shared/gearChoices.ts';
import { IconButton } from '../shared/IconButton.tsx';
import { Readings } from '../shared/Readings.tsx';
import { DRUMMER } from './drummerFields.ts';

const NEW = '+new';

/** `982 mm of 955 mm, leaning 3.2°`. */
function reachText({ distance, reach, leanRad }: SpotReach, units: DisplayUnit): string {
  const lean =
    leanRad === null ? ', beyond any lean' : leanRad > 0 ? `, leaning ${formatAngle(toDegrees(leanRad))}` : '';
  return `${formatLength(distance, units)} of ${formatLength(reach, units)}${lean}`;
}

export function DrummerPanel() {
  const { plan, setup, setupId, units, run, isReadOnly } = usePanel();
  const drummers = Object.values(plan.drummers ?? {});
  const drummer = setup.drummer === undefined ? undefined : plan.drummers?.[setup.drummer];
  const {
    layout: { figure },
    checked: { spots },
  } = liveOf(plan, setupId);
  const nameOf = (piece: string) => pieceName(plan, setupId, piece);

  const choose = (id: string) => {
    if (id !== NEW) return run({ type: 'setDrummer', setup: setupId, drummer: id === NONE ? null : id });
    const made: Drummer = {
      ...identity('drummer', 'Drummer', drummers),
      sex: 'man',
      percentile: 50,
      // As the kit is set.
      handed: (figure && leadingHand(figure)) ?? 'right',
    };
    return run({
      type: 'many',
      commands: [
        { type: 'addDrummer', drummer: made },
        { type: 'setDrummer', setup: setupId, drummer: made.id },
      ],
    });
  };
  const choices = orNone(
    drummers.map(({ id, name }) => ({ id, label: name })),
    'A typical drummer',
  );
  if (drummers.length < LIMITS.drummers) choices.push({ id: NEW, label: 'A new drummer …' });
  return (
    <>
      <Section
        title="Drummer of this setup"
        actions={
          drummer && (
            <IconButton
              icon={Trash2}
              label="Remove this drummer from the plan"
              isDisabled={isReadOnly}
              onPress={() => run({ type: 'removeDrummer', drummer: drummer.id })}
            />
          )
        }
      >
        <ChoiceField
          label="Drummer"
          hideLabel
          value={setup.drummer ?? NONE}
          isReadOnly={isReadOnly}
          choices={choices}
          onCommit={choose}
        />
        {figure === null ? (
          <p className="hint">Nobody sits at this kit: it has no throne.</p>
        ) : (
          <Readings
            rows={figure.legs.map(({ side, works, down }) =>
              works === null
                ? null
                : [
                    `${side === 'left' ? 'Left' : 'Right'} knee on ${nameOf(works.piece)}`,
                    formatAngle(toDegrees(down.kneeRad)),
                  ],
            )}
          />
        )}
        {drummer === undefined && (
          <p className="hint">Nobody is named, so legs and reach are those of a middle-sized man (ANSUR II, 2012).</p>
        )}
        {drummer && <FieldRows table={DRUMMER} section="who" of={{ drummer }} />}
        {setup.otherHand && <p className="hint">This setup is mirrored: here the drummer leads with the other hand.</p>}
      </Section>
      {spots.length > 0 && (
        <Section title="Reach, the hardest first">
          <Readings rows={spots.map((spot) => [`${nameOf(spot.piece)}, ${spot.spot}`, reachText(spot, units)])} />
          <p className="hint">
            From the shoulder with arm and stick. Choose a drum or cymbal: the drawing shows how far sticks get at its
            height, with the forearm alone and, dashed, with the whole arm.
          </p>
        </Section>
      )}
      {drummer && (
        <Section title="Measured sizes">
          <FieldRows table={DRUMMER} section="tape" of={{ drummer }} />
          <p className="hint">
            An empty field takes its size from published tables (ANSUR II, 2012). Measure barefoot, sitting upright,
            thighs level.
          </p>
        </Section>
      )}
    </>
  );
}
