/** The plans that this browser keeps, the last written first: opened, removed, taken out and in as one file. */
import { Archive, ArchiveRestore, Download, Trash2, Undo2 } from 'lucide-react';
import { useCallback, useEffect, useRef, useState } from 'react';
import { counted } from '../../../words/names.ts';
import { MiniPlan } from '../../panels/setups/MiniPlan.tsx';
import { commonWindow, PICTURE_RATIO } from '../../panels/setups/picture.ts';
import { IconButton } from '../../panels/shared/IconButton.tsx';
import { PanelDialog } from '../../panels/shared/PanelDialog.tsx';
import { TextButton } from '../../panels/shared/TextButton.tsx';
import { planFileName } from '../../state/files.ts';
import { usePanel } from '../../state/panelContext.ts';
import { archiveOf, archiveText, readArchive, takeIn, takenWords } from '../../storage/archive.ts';
import { pack } from '../../storage/packed.ts';
import type { KeptPlan, WholePlan } from '../../storage/planStore.ts';
import { useWorkplace } from '../workplace.ts';
import { type SmallPlan, useSmallPlans } from './smallPlan.ts';
import { when } from './when.ts';
import './plans.css';

export interface PlansDialogProps {
  /** Today, YYYY-MM-DD, for a file's name. */
  readonly today: string;
  readonly tell: (sentence: string | null) => void;
  readonly onClose: () => void;
}

const NOTHING_READ = 'This browser keeps nothing, or lets this page read nothing.';

export function PlansDialog({ today, tell, onClose }: PlansDialogProps) {
  const { session } = useWorkplace();
  const { editor, files } = usePanel();
  const { store } = session;
  const [plans, setPlans] = useState<readonly KeptPlan[]>([]);
  const [removed, setRemoved] = useState<WholePlan | null>(null);
  const [sentence, setSentence] = useState<string | null>(null);
  const [room, setRoom] = useState<string | null>(null);
  const picker = useRef<HTMLInputElement>(null);
  const open = session.state.getState().id;

  const look = useCallback(async () => {
    try {
      await session.flush();
      setPlans(await store.all());
      setRoom(await roomWords());
    } catch {
      setSentence(NOTHING_READ);
    }
  }, [session, store]);
  useEffect(() => void look(), [look]);
  const small = useSmallPlans(plans, textOf);

  /** Carries out what may fail for want of room, says how it ended, and looks again. */
  const act = async (work: () => Promise<string | null>) => {
    try {
      setSentence(await work());
    } catch {
      setSentence('This browser could not do that: it has no room, or lets this page keep nothing.');
    }
    await look();
  };
  const remove = (id: string) =>
    act(async () => {
      const whole = await store.whole(id);
      await store.remove(id);
      setRemoved(whole);
      return null;
    });
  const putBack = (whole: WholePlan) =>
    act(async () => {
      await store.putWhole(whole);
      setRemoved(null);
      return null;
    });
  const takeOut = () =>
    act(async () => {
      const stock = await files.stock.read().catch(() => null);
      const archive = await archiveOf(store, stock, editor.store.getState().theme);
      const packed = await pack(`${JSON.stringify(archive, null, 1)}\n`);
      const ending = typeof packed === 'string' ? 'json' : 'json.gz';
      files.download(new Blob([packed]), `legroom-everything-${today}.${ending}`);
      return `${counted(archive.plans.length, 'plan')} with all versions${stock === null ? '' : ', and the stock list,'} went into one file, in the browser’s downloads.`;
    });
  const bringIn = (file: File) =>
    act(async () => {
      const text = await archiveText(file).catch(() => '');
      const read = readArchive(text);
      if (!read.ok) return read.sentence;
      const { archive } = read;
      const said = [takenWords(await takeIn(archive, store, session.newId))];
      if (archive.stock !== null) {
        const here = await files.stock.read();
        if (here === null) await files.stock.keep(archive.stock);
        else if (here !== archive.stock)
          said.push('The stock list here stays as it is; the one in the file was not taken.');
      }
      const { theme } = editor.store.getState();
      if (theme === 'system' && (archive.look === 'light' || archive.look === 'dark'))
        editor.set({ theme: archive.look });
      return said.join(' ');
    });

  const window = commonWindow(
    [...small.values()].flatMap((one) => (one === null ? [] : [one.picture])),
    PICTURE_RATIO,
  );
  return (
    <PanelDialog title="Plans kept in this browser" wide onClose={onClose}>
      <div className="plans-head">
        <TextButton icon={Archive} onPress={() => void takeOut()}>
          Save everything to one file
        </TextButton>
        <TextButton icon={ArchiveRestore} onPress={() => picker.current?.click()}>
          Take everything in from a file …
        </TextButton>
        <input
          ref={picker}
          type="file"
          accept=".gz,.json"
          hidden
          aria-label="A file of everything"
          onChange={({ target }) => {
            const file = target.files?.[0];
            target.value = '';
            if (file) void bringIn(file);
          }}
        />
        {room !== null && <small>{room}</small>}
      </div>
      <div role="status" className="plans-said">
        {sentence}
        {removed !== null && (
          <>
            “{removed.plan.name}” was removed, with its versions.{' '}
            <TextButton icon={Undo2} onPress={() => void putBack(removed)}>
              Put it back
            </TextButton>
          </>
        )}
      </div>
      <ul className="kept-plans" aria-label="Plans">
        {plans.map((plan) => {
          const { id, name, keptAt, text } = plan;
          const shown = small.get(plan);
          const called = name || 'Unnamed plan';
          return (
            <li key={id} className="kept-plan" aria-current={id === open ? 'true' : undefined}>
              <button
                type="button"
                className="kept-open"
                disabled={id === open}
                onClick={() => {
                  onClose();
                  void session.reopen(id).then(tell);
                }}
              >
                <SmallPicture small={shown} window={window} />
                <span className="kept-facts">
                  <span className="kept-name">{called}</span>
                  <span>{shown === null ? 'cannot be read by this program' : (shown?.size ?? ' ')}</span>
                  <small>{id === open ? 'open now' : when(keptAt)}</small>
                </span>
              </button>
              <span className="kept-buttons">
                <IconButton
                  icon={Download}
                  label={`Download ${called}`}
                  onPress={() => files.download(new Blob([text]), planFileName(name))}
                />
                <IconButton
                  icon={Trash2}
                  label={`Remove ${called}`}
                  isDisabled={id === open}
                  onPress={() => void remove(id)}
                />
              </span>
            </li>
          );
        })}
      </ul>
      <p className="hint">
        A plan stays until you remove it. This browser may still forget all of them, as when its data are cleared: what
        matters belongs into a file.
      </p>
    </PanelDialog>
  );
}

const textOf = ({ text }: KeptPlan) => text;

export function SmallPicture({
  small,
  window,
}: {
  readonly small: SmallPlan | null | undefined;
  readonly window: { readonly widthMm: number; readonly heightMm: number };
}) {
  if (!small) return <span className="mini-plan" />;
  return <MiniPlan picture={small.picture} window={window} deck={small.deck} />;
}

/** How much room there is, as far as the browser tells; null: it does not. */
async function roomWords(): Promise<string | null> {
  const { usage, quota } = (await navigator.storage?.estimate?.().catch(() => null)) ?? {};
  if (usage === undefined || !quota) return null;
  const size = (bytes: number) => (bytes < 1e9 ? `${(bytes / 1e6).toFixed(1)} MB` : `${(bytes / 1e9).toFixed(1)} GB`);
  const short = usage > 0.9 * quota ? ' Room is short: remove what you no longer need.' : '';
  return `${size(usage)} of ${size(quota)} taken.${short}`;
}
