/** Earlier states of the plan that is open, as small drawings with what changed from each to the next; any can be brought back. */
import { History } from 'lucide-react';
import { useEffect, useMemo, useState } from 'react';
import { planChangeWords } from '../../../words/planChangeWords.ts';
import { commonWindow, PICTURE_RATIO } from '../../panels/setups/picture.ts';
import { PanelDialog } from '../../panels/shared/PanelDialog.tsx';
import { TextButton } from '../../panels/shared/TextButton.tsx';
import { usePanel } from '../../state/panelContext.ts';
import { unpack } from '../../storage/packed.ts';
import { type KeptVersion, NEWEST_VERSIONS, VERSION_STEP, VERSIONS } from '../../storage/versions.ts';
import { useWorkplace } from '../workplace.ts';
import { SmallPicture } from './PlansDialog.tsx';
import { useSmallPlans } from './smallPlan.ts';
import { when } from './when.ts';
import './plans.css';

export interface VersionsDialogProps {
  readonly tell: (sentence: string | null) => void;
  readonly onClose: () => void;
}

const textOf = ({ text }: KeptVersion) => unpack(text);

export function VersionsDialog({ tell, onClose }: VersionsDialogProps) {
  const { session } = useWorkplace();
  const { plan, isReadOnly } = usePanel();
  const [found, setFound] = useState<Awaited<ReturnType<typeof session.versions>> | null>(null);
  useEffect(() => void session.versions().then(setFound), [session]);
  const versions = useMemo(() => found?.versions ?? [], [found]);
  const small = useSmallPlans(versions, textOf);
  const window = commonWindow(
    [...small.values()].flatMap((one) => (one === null ? [] : [one.picture])),
    PICTURE_RATIO,
  );
  /** What became of a state up to the one after it, which stands above. */
  const wordsOf = (at: number): string => {
    const before = small.get(versions[at])?.plan;
    const after = at === 0 ? plan : small.get(versions[at - 1])?.plan;
    if (!before || !after) return ' ';
    const words = planChangeWords(before, after);
    return words === '' ? 'As it is now' : `Then: ${words}`;
  };
  const bringBack = async (version: KeptVersion) => {
    onClose();
    tell(await session.bringBack(version));
  };
  return (
    <PanelDialog title={`Versions of “${plan.name || 'Unnamed plan'}”`} wide onClose={onClose}>
      <p className="hint">
        A state is kept when the plan is opened or saved, and after every {VERSION_STEP} changes or so, once you pause.
        The newest {NEWEST_VERSIONS} all stay, and of those before them the first and the ones that are the most changes
        apart: {VERSIONS} in all. Bringing one back is one step, which Undo takes back, and the plan as it is now
        becomes a version first.
      </p>
      {found !== null && versions.length === 0 && <p>No earlier state is kept yet.</p>}
      <ul className="kept-plans" aria-label="Versions">
        {versions.map((version, at) => {
          const shown = small.get(version);
          const time = when(version.keptAt);
          return (
            <li key={version.n} className="kept-plan">
              <span className="kept-open">
                <SmallPicture small={shown} window={window} />
                <span className="kept-facts">
                  <span className="kept-name">{time}</span>
                  <span>{shown === null ? 'cannot be read by this program' : shown?.size}</span>
                  <span className="kept-words-changed">{wordsOf(at)}</span>
                </span>
              </span>
              <TextButton
                icon={History}
                aria-label={version.n === found?.now ? undefined : `Bring back ${time}`}
                isDisabled={!shown || isReadOnly || version.n === found?.now}
                onPress={() => void bringBack(version)}
              >
                {version.n === found?.now ? 'Now' : 'Bring back'}
              </TextButton>
            </li>
          );
        })}
      </ul>
    </PanelDialog>
  );
}
