/** A panel or dialog that is loaded when it is shown. Where it cannot be loaded, the reason and the remedy stand in its place. */
import { type ComponentType, lazy } from 'react';
import { arrive, type PartMissing } from '../../state/parts.ts';
import { TextButton } from './TextButton.tsx';

export const lazyPart = <P extends object>(load: () => Promise<ComponentType<P>>) =>
  lazy(async () => {
    const shown: ComponentType<P> = await arrive(load()).catch((problem: PartMissing) => (props: P) => (
      <MissingPart problem={problem} wanted={props} />
    ));
    return { default: shown };
  });

interface MissingPartProps {
  readonly problem: PartMissing;
  /** What the part was to be shown with. */
  readonly wanted: object;
}

/** In the panel's place; at the foot of the page in a dialog's. */
function MissingPart({ problem, wanted }: MissingPartProps) {
  return (
    <div className={'onClose' in wanted ? 'update-notice' : 'missing-part'} role="alert">
      <span>{problem.message}</span>
      {problem.helpsReload && (
        <TextButton look="main" onPress={() => location.reload()}>
          Reload
        </TextButton>
      )}
    </div>
  );
}
