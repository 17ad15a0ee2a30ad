/** Several chosen pieces: moved together by typed distances; two drums swapped from mounts of their own to one platform. */

import { useState } from 'react';
import type { Piece } from '../../../plan/schema.ts';
import { type PlatformSwap, swapForPlatform } from '../../../solve/platformSwap.ts';
import { pieceName } from '../../../words/names.ts';
import { liveOf } from '../../state/live.ts';
import { carriedPieces, nudge } from '../../state/nudge.ts';
import { usePanel } from '../../state/panelContext.ts';
import { FieldRows } from '../fields/FieldRows.tsx';
import type { FieldTable } from '../fields/rows.ts';
import { Section } from '../fields/WordField.tsx';
import { TextButton } from '../shared/TextButton.tsx';
import { CHOSEN } from './travel.ts';

type NoSwap = PlatformSwap & { readonly ok: false };

const WHY_NOT: Readonly<Record<Exclude<NoSwap['code'], 'runs_into'>, string>> = {
  not_two_drums: 'Choose two drums to put them on one double tom holder.',
  not_on_one_rack: 'The two drums hang on different things: mount both on one rack first.',
  holds_others: 'Another piece hangs in a socket of their arms: mount that elsewhere first.',
  out_of_reach: 'No place on that rack lets a double tom holder reach both drums where they are.',
};

/** The way of all pieces together; `isFixed`: one of them is locked. */
interface Way {
  readonly dxMm: number;
  readonly dyMm: number;
  readonly isFixed: boolean;
  readonly take: (change: Readonly<Record<string, unknown>>) => void;
}

/** Longer ways are slips: no stage is that wide. mm. */
const bounds = { least: -20_000, most: 20_000 };

const WAY = {
  record: (way) => way,
  write: (way, [key], value) => {
    way.take({ [key]: value });
    return null;
  },
  isLocked: ({ isFixed }) => isFixed,
  sections: {
    way: [
      { path: 'dxMm', label: 'Shift to stage left', derived: true, bounds },
      { path: 'dyMm', label: 'Shift upstage', derived: true, bounds },
    ],
  },
} satisfies FieldTable<Way>;

export interface SeveralFieldsProps {
  readonly pieces: readonly Piece[];
  readonly isFixed: boolean;
}

export function SeveralFields({ pieces, isFixed }: SeveralFieldsProps) {
  const { plan, setup, setupId, carries, run } = usePanel();
  const [by, setBy] = useState({ dxMm: 0, dyMm: 0 });
  const [answer, setAnswer] = useState<string | null>(null);
  const move = () => {
    const refusal = run(nudge(setupId, pieces, by, carriedPieces(plan, setup, pieces, carries)));
    setAnswer(refusal);
    if (refusal === null) setBy({ dxMm: 0, dyMm: 0 });
  };
  const swap = () => {
    const ids = pieces.map(({ id }) => id);
    const found = swapForPlatform(plan, setup, liveOf(plan, setupId).layout, ids);
    if (!found.ok)
      return setAnswer(
        found.code === 'runs_into'
          ? `Wherever a double tom holder reaches both, an arm runs into ${pieceName(plan, setupId, found.struck)}: move that, or a drum.`
          : WHY_NOT[found.code],
      );
    setAnswer(
      run(found.command) ??
        `Both hang on ${found.platform.name}: the first by ${found.firstArm.name}, the second by ${found.arm.name}.`,
    );
  };
  return (
    <Section title="Together">
      <FieldRows table={WAY} section="way" of={{ ...by, isFixed, take: (change) => setBy({ ...by, ...change }) }} />
      <FieldRows table={CHOSEN} section="load" of={{ setup, setupId, pieces }} />
      <div className="answered">
        <TextButton isDisabled={isFixed || (by.dxMm === 0 && by.dyMm === 0)} onPress={move}>
          Move all by that
        </TextButton>
        {pieces.length === 2 && pieces.every(({ kind }) => kind === 'item') && (
          <TextButton isDisabled={isFixed} onPress={swap}>
            Put both on one double tom holder
          </TextButton>
        )}
        <p className="hint" role="status">
          {answer ?? ''}
        </p>
      </div>
    </Section>
  );
}
