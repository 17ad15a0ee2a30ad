/** Buttons that move and turn the selected pieces: whatever a drag does, by single taps (WCAG 2.2, 2.5.7). */
import { ArrowDown, ArrowLeft, ArrowRight, ArrowUp, RotateCcw, RotateCw } from 'lucide-react';
import { useId, useState } from 'react';
import { Group } from 'react-aria-components';
import type { Piece } from '../../../plan/schema.ts';
import { formatLength } from '../../../units.ts';
import { carriedPieces, type Nudge, nudge, nudgeSteps } from '../../state/nudge.ts';
import { usePanel } from '../../state/panelContext.ts';
import { ChoiceField } from '../fields/WordField.tsx';
import { IconButton } from '../shared/IconButton.tsx';

const TURN_DEG = 5;

export function NudgePad({ pieces, isFixed }: { readonly pieces: readonly Piece[]; readonly isFixed: boolean }) {
  const { plan, setup, setupId, units, carries, run } = usePanel();
  const steps = nudgeSteps(units);
  const [chosen, setChosen] = useState(2);
  const stepMm = steps[Math.min(chosen, steps.length - 1)];
  // Taps on one selection undo as one.
  const gesture = `${useId()}-${pieces.map(({ id }) => id).join(' ')}`;
  const by = (how: Nudge) => () =>
    void run(nudge(setupId, pieces, how, carriedPieces(plan, setup, pieces, carries)), gesture);
  const buttons = [
    { label: 'Move to stage right', icon: ArrowLeft, how: { dxMm: -stepMm } },
    { label: 'Move downstage', icon: ArrowDown, how: { dyMm: -stepMm } },
    { label: 'Move upstage', icon: ArrowUp, how: { dyMm: stepMm } },
    { label: 'Move to stage left', icon: ArrowRight, how: { dxMm: stepMm } },
    { label: 'Turn left', icon: RotateCcw, how: { turnDeg: TURN_DEG } },
    { label: 'Turn right', icon: RotateCw, how: { turnDeg: -TURN_DEG } },
  ];
  return (
    <Group className="nudge" aria-label="Move by steps">
      {buttons.map(({ label, icon, how }) => (
        <IconButton key={label} icon={icon} label={label} isDisabled={isFixed} onPress={by(how)} />
      ))}
      <ChoiceField
        label="Step"
        hideLabel
        value={String(Math.min(chosen, steps.length - 1))}
        choices={steps.map((mm, i) => ({ id: String(i), label: formatLength(mm, units) }))}
        onCommit={(index) => void setChosen(Number(index))}
      />
    </Group>
  );
}
