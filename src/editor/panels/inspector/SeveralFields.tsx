/** Several chosen pieces: moved together by typed distances; two drums swapped from mounts of their own to one platform. */
import { useState } from 'react';
import { Button } from 'react-aria-components';
import type { Piece } from '../../../plan/schema.ts';
import { type PlatformSwap, swapForPlatform } from '../../../solve/platformSwap.ts';
import { liveOf } from '../../state/live.ts';
import '../mounts/mounts.css';
import { carriedPieces, nudge } from '../../state/nudge.ts';
import { usePanel } from '../../state/panelContext.ts';
import { MeasureField } from '../fields/MeasureField.tsx';
import { lengthMeasure } from '../fields/measures.ts';
import { Section } from '../fields/WordField.tsx';

const WHY_NOT: Readonly<Record<(PlatformSwap & { readonly ok: false })['code'], string>> = {
  not_two_drums: 'Choose two drums to hang them on one platform.',
  not_on_one_rack: 'The two drums hang on different things: mount both on one rack first.',
  holds_others: 'Another piece hangs in a socket of their arms: mount that elsewhere first.',
  out_of_reach: 'No place on that rack lets a two-arm platform reach both drums where they are.',
};

const MOST_MM = 20_000;

export interface SeveralFieldsProps {
  readonly pieces: readonly Piece[];
  readonly isFixed: boolean;
}

export function SeveralFields({ pieces, isFixed }: SeveralFieldsProps) {
  const { plan, setup, setupId, units, carries, run } = usePanel();
  const [by, setBy] = useState({ dxMm: 0, dyMm: 0 });
  const [answer, setAnswer] = useState<string | null>(null);
  const measure = lengthMeasure(units, { least: -MOST_MM, most: MOST_MM });
  const take = (change: Partial<typeof by>) => {
    setBy({ ...by, ...change });
    return null;
  };
  const move = () => {
    const refusal = run(nudge(setupId, pieces, by, carries ? carriedPieces(setup, pieces) : []));
    setAnswer(refusal);
    if (refusal === null) setBy({ dxMm: 0, dyMm: 0 });
  };
  const swap = () => {
    const ids = pieces.map(({ id }) => id);
    const found = swapForPlatform(plan, setup, liveOf(plan, setupId).layout, ids);
    if (!found.ok) return setAnswer(WHY_NOT[found.code]);
    setAnswer(
      run(found.command) ??
        `Both hang on ${found.platform.name}: the first by ${found.firstArm.name}, the second by ${found.arm.name}.`,
    );
  };
  return (
    <Section title="Together">
      <div className="field-grid">
        <MeasureField
          label="Shift to stage left"
          value={by.dxMm}
          measure={measure}
          isReadOnly={isFixed}
          onCommit={(dxMm) => take({ dxMm })}
        />
        <MeasureField
          label="Shift upstage"
          value={by.dyMm}
          measure={measure}
          isReadOnly={isFixed}
          onCommit={(dyMm) => take({ dyMm })}
        />
      </div>
      <div className="find-mount">
        <Button className="button" isDisabled={isFixed || (by.dxMm === 0 && by.dyMm === 0)} onPress={move}>
          Move all by that
        </Button>
        {pieces.length === 2 && pieces.every(({ kind }) => kind === 'item') && (
          <Button className="button" isDisabled={isFixed} onPress={swap}>
            Swap their mounts for one platform
          </Button>
        )}
        <p className="hint" role="status">
          {answer ?? ''}
        </p>
      </div>
    </Section>
  );
}
