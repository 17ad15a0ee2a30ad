/** Tonight's riser: which one, of which modules, how high, how strong; and where the kit stands best on it. */

import { Plus, Trash2 } from 'lucide-react';
import { useEffect, useLayoutEffect, useRef, useState } from 'react';
import { Button, ProgressBar } from 'react-aria-components';
import type { RiserPose, RiserPoses } from '../../../checks/riserPoses.ts';
import { gearOf } from '../../../gear/catalogue.ts';
import { isBesideKit } from '../../../gear/kinds.ts';
import type { GearOf } from '../../../gear/schema.ts';
import type { Motion } from '../../../geometry/frame.ts';
import { placesByMotion } from '../../../plan/motion.ts';
import { LIMITS, type Piece, type Riser } from '../../../plan/schema.ts';
import { formatAngle, formatLength, toRadians } from '../../../units.ts';
import { marginText } from '../../../words/riserWords.ts';
import { liveOf } from '../../state/live.ts';
import { moduleGrips } from '../../state/moduleGrips.ts';
import { usePanel } from '../../state/panelContext.ts';
import { FieldRows } from '../fields/FieldRows.tsx';
import { NONE } from '../fields/rows.ts';
import { ChoiceField, Section } from '../fields/WordField.tsx';
import { gearOfPlan } from '../gear/shelf.ts';
import { orNone } from '../shared/gearChoices.ts';
import { IconButton } from '../shared/IconButton.tsx';
import { Readings } from '../shared/Readings.tsx';
import { TextButton } from '../shared/TextButton.tsx';
import { unbroken } from '../shared/unbroken.ts';
import { newRiser, nextModule } from './riserEdits.ts';
import { deckOf, MODULE, RISER, type RiserHere } from './riserFields.ts';
import { useRiserPoses } from './useRiserPoses.ts';
import './riser.css';

const isDeck = (gear: { kind: string }): gear is GearOf<'deck'> => gear.kind === 'deck';
const NEW = '+new';

export function RiserPanel() {
  const { editor, plan, setup, setupId, units, run, isReadOnly } = usePanel();
  const risers = Object.values(plan.risers);
  const riser = setup.riser === null ? undefined : plan.risers[setup.riser];
  const decks = gearOfPlan(plan).filter(isDeck);
  // While this panel is open, modules can be dragged on the drawing.
  useEffect(() => {
    editor.set({ lent: moduleGrips });
    return () => editor.set({ lent: null });
  }, [editor]);

  const choose = (id: string) => {
    if (id !== NEW) return run({ type: 'setRiser', setup: setupId, riser: id === NONE ? null : id });
    // In the middle of what is in sight.
    const { xMm, yMm } = editor.store.getState().view;
    const made = newRiser(decks[0], xMm, yMm, risers, units);
    return run({
      type: 'many',
      commands: [
        { type: 'addRiser', riser: made },
        { type: 'setRiser', setup: setupId, riser: made.id },
      ],
    });
  };
  return (
    <>
      <Section title="Stands on">
        <ChoiceField
          label="Riser"
          hideLabel
          value={setup.riser ?? NONE}
          isReadOnly={isReadOnly}
          choices={[
            ...orNone(
              risers.map(({ id, name }) => ({ id, label: name })),
              'The stage floor',
            ),
            { id: NEW, label: 'A new riser …' },
          ]}
          onCommit={choose}
        />
      </Section>
      {riser !== undefined && (
        <>
          <BestPoseBox wantedMm={riser.edgeMarginMm} />
          <RiserFields key={riser.id} riser={riser} decks={decks} />
        </>
      )}
    </>
  );
}

/** Below this a move is not worth making: the tape reads no finer. mm. */
const WORTH_MM = 1;

function BestPoseBox({ wantedMm }: { readonly wantedMm: number }) {
  const { plan, setupId, units } = usePanel();
  const marginMm = liveOf(plan, setupId).checked.readings.riserMargin;
  const search = useRiserPoses(plan, setupId);
  const isLooking = search.part !== null;
  // What was there keeps its room while the next is looked for, so that fields below do not jump at every edit.
  const answer = useRef<HTMLDivElement>(null);
  const room = useRef(0);
  useLayoutEffect(() => {
    if (!isLooking) room.current = answer.current?.offsetHeight ?? 0;
  });
  if (marginMm === null)
    return (
      <Section title="On the riser">
        <p className="hint">Nothing stands on it yet.</p>
      </Section>
    );
  const mm = (value: number) => unbroken(formatLength(value, units));
  const { part, poses, stopped, sentence, stop } = search;
  const margin = (pose: RiserPose | null) => (pose ? marginText(pose.margin, units) : isLooking ? '…' : '–');
  const turnAtMost = poses?.pose?.turnAtMost;
  const within = Math.max(poses?.shift?.within ?? 0, poses?.pose?.within ?? 0);
  return (
    <Section title="On the riser">
      <Readings
        rows={[
          ['Margin now', marginText(marginMm, units)],
          ['Margin wanted', mm(wantedMm)],
          ['Most by shifting alone', margin(poses?.shift ?? null)],
          [
            turnAtMost === undefined
              ? 'Most when turned too'
              : `Most when turned too, ${formatAngle(turnAtMost)} at most`,
            margin(poses?.pose ?? null),
          ],
        ]}
      />
      <div ref={answer} style={isLooking ? { minHeight: room.current } : undefined}>
        {part !== null && (
          <div className="pose-search">
            <ProgressBar className="pose-progress" aria-label="Looking for the best place" value={part * 100}>
              <span style={{ width: `${part * 100}%` }} />
            </ProgressBar>
            <TextButton onPress={stop}>Stop looking</TextButton>
          </div>
        )}
        {!isLooking && poses !== null && within > WORTH_MM && (
          <p className="hint">
            {stopped ? 'Stopped: not searched to the end. ' : 'The best found within the search’s time. '}
            No other place has more than {mm(within)} above these.
          </p>
        )}
        {!isLooking && stopped && poses === null && <p className="hint">Stopped before a place was found.</p>}
        {!isLooking && poses !== null && <PoseOffers marginMm={marginMm} wantedMm={wantedMm} poses={poses} />}
      </div>
      {sentence !== null && (
        <p role="status" className="field-error">
          {sentence}
        </p>
      )}
    </Section>
  );
}

interface PoseOffersProps {
  readonly marginMm: number;
  readonly wantedMm: number;
  readonly poses: RiserPoses;
}

/** What to do about it: turning is offered beside shifting only where it leaves more. */
function PoseOffers({ marginMm, wantedMm, poses: { pose: bestPose, shift: bestShift } }: PoseOffersProps) {
  const { plan, setup, setupId, units, run, isReadOnly } = usePanel();
  const [sentence, setSentence] = useState<string | null>(null);
  const mm = (value: number) => unbroken(formatLength(value, units));
  // What belongs to the stage stays.
  const kit = setup.order
    .map((id) => setup.pieces[id])
    .filter((piece) => piece.kind === 'rack' || !isBesideKit(gearOf(plan.gear, piece.gear)));
  const apply = ({ angle, move: [dxMm, dyMm] }: RiserPose) => {
    const motion = { turnDeg: angle, aboutXMm: 0, aboutYMm: 0, dxMm, dyMm };
    const ids = kit.map(({ id }) => id);
    setSentence(run({ type: 'placePieces', setup: setupId, places: placesByMotion(setup, ids, motion) }));
  };
  const shiftPays = bestShift !== null && bestShift.margin - marginMm >= WORTH_MM;
  const turnPays = bestPose !== null && bestPose.margin - Math.max(marginMm, bestShift?.margin ?? marginMm) >= WORTH_MM;
  // The one that is enough is the one to press.
  const shiftIsEnough = shiftPays && (!turnPays || bestShift.margin >= wantedMm || bestPose.margin < wantedMm);
  const best = bestPose ?? bestShift;
  return (
    <>
      {best !== null && best.margin < 0 && (
        <p className="hint">
          {best.within > WORTH_MM
            ? `No place was found that keeps the whole kit on this riser: at the best one a foot is ${mm(-best.margin)} off.`
            : `The kit does not fit this riser: wherever it stands, a foot is at least ${mm(-best.margin)} off.`}
        </p>
      )}
      {best !== null && !shiftPays && !turnPays && <p className="hint">The kit stands where it has the most margin.</p>}
      {shiftPays && (
        <>
          <p className="hint">Without turning, move the kit {movedText(motionOf(bestShift), kit, mm)}.</p>
          <TextButton look={shiftIsEnough ? 'main' : 'plain'} isDisabled={isReadOnly} onPress={() => apply(bestShift)}>
            Shift the kit there
          </TextButton>
        </>
      )}
      {turnPays && (
        <>
          <p className="hint">
            For the most margin, move the kit {movedText(motionOf(bestPose), kit, mm)} and turn it{' '}
            {formatAngle(Math.abs(bestPose.angle))} to the {bestPose.angle > 0 ? 'left' : 'right'}.
          </p>
          <Button
            className={shiftIsEnough ? 'button' : 'button button-main'}
            isDisabled={isReadOnly}
            onPress={() => apply(bestPose)}
          >
            Turn and move the kit there
          </Button>
        </>
      )}
      <p role="status" className="field-error">
        {sentence}
      </p>
    </>
  );
}

const motionOf = ({ angle, move: [dx, dy] }: RiserPose): Motion => ({ angle: toRadians(angle), dx, dy });

/** How far the middle of the pieces' anchors goes, in the stage's words: the motion's own shift is about the origin. */
export function movedText(motion: Motion, pieces: readonly Piece[], mm: (value: number) => string): string {
  const count = Math.max(1, pieces.length);
  const x = pieces.reduce((sum, { place }) => sum + place.xMm, 0) / count;
  const y = pieces.reduce((sum, { place }) => sum + place.yMm, 0) / count;
  const c = Math.cos(motion.angle);
  const s = Math.sin(motion.angle);
  const dx = c * x - s * y + motion.dx - x;
  const dy = s * x + c * y + motion.dy - y;
  return `${mm(Math.abs(dx))} to stage ${dx >= 0 ? 'left' : 'right'}, ${mm(Math.abs(dy))} ${dy >= 0 ? 'upstage' : 'downstage'}`;
}

function RiserFields(here: RiserHere) {
  const { run, isReadOnly } = usePanel();
  const { riser } = here;
  const edit = (set: Partial<Riser>) => run({ type: 'editRiser', riser: riser.id, set });
  return (
    <>
      <Section
        title="Riser"
        actions={
          <IconButton
            icon={Trash2}
            label="Remove this riser from the plan"
            isDisabled={isReadOnly}
            onPress={() => run({ type: 'removeRiser', riser: riser.id })}
          />
        }
      >
        <FieldRows table={RISER} section="riser" of={here} />
        <p className="hint">The rated load stands on the deck’s plate. The venue and local rules decide.</p>
      </Section>
      <Section
        title="Modules"
        actions={
          <IconButton
            icon={Plus}
            label="Add a module"
            isDisabled={isReadOnly || riser.modules.length >= LIMITS.modules}
            onPress={() => {
              const like = riser.modules[riser.modules.length - 1].gear;
              edit({ modules: [...riser.modules, nextModule(riser.modules, deckOf(here, like))] });
            }}
          />
        }
      >
        {riser.modules.map((module, i) => (
          <fieldset key={module.id} className="part">
            <legend className="part-head">
              Module {i + 1}
              <IconButton
                icon={Trash2}
                label={`Remove module ${i + 1}`}
                isDisabled={isReadOnly || riser.modules.length === 1}
                onPress={() => edit({ modules: riser.modules.filter(({ id }) => id !== module.id) })}
              />
            </legend>
            <FieldRows table={MODULE} section="module" of={{ ...here, module }} />
          </fieldset>
        ))}
        <p className="hint">
          On the drawing, drag a module by its handle: it snaps flush to the others. Hold Alt to place it freely.
        </p>
      </Section>
    </>
  );
}
