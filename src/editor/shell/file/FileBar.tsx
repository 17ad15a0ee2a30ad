/** The bar at the top: the document and its file, undo and redo, the sheet, units, the look, help. */
import {
  CircleHelp,
  Drum,
  FilePlus2,
  FileText,
  FolderOpen,
  History,
  Library,
  Menu as MenuIcon,
  Moon,
  Redo2,
  Ruler,
  Save,
  SaveAll,
  Sun,
  SunMoon,
  Undo2,
} from 'lucide-react';
import { type ReactNode, useId } from 'react';
import {
  Button,
  Header,
  Keyboard,
  Menu,
  MenuSection,
  MenuTrigger,
  Popover,
  Separator,
  Toolbar,
} from 'react-aria-components';
import { useStore } from 'zustand';
import { Hint } from '../../panels/shared/Hint.tsx';
import { MenuEntry } from '../../panels/shared/MenuEntry.tsx';
import { TextButton } from '../../panels/shared/TextButton.tsx';
import { usePanel } from '../../state/panelContext.ts';
import { type Theme, useEditor } from '../../state/store.ts';
import type { EarlierPlan, SessionState } from '../../storage/session.ts';
import { useWorkplace } from '../workplace.ts';
import { SAMPLES, type Sample } from './samples.ts';
import './file.css';

export interface FileBarProps {
  readonly onNew: () => void;
  /** A new plan that begins with a kit. */
  readonly onStarter: () => void;
  readonly onOpen: () => void;
  readonly onSave: (elsewhere: boolean) => void;
  /** Plans that were open before, the newest first. */
  readonly earlier: readonly EarlierPlan[];
  /** The menu is about to show: what it lists should be of now. */
  readonly onMenu: () => void;
  readonly onReopen: (id: string) => void;
  readonly onSample: (sample: Sample) => void;
  readonly onSheet: () => void;
  readonly onHelp: () => void;
}

const NEXT_THEME: Readonly<Record<Theme, Theme>> = { system: 'light', light: 'dark', dark: 'system' };
/** The key that goes with letters on this system's keyboards. */
const COMMAND = /Mac|iPhone|iPad/.test(globalThis.navigator?.platform ?? '') ? '⌘' : 'Ctrl';

const THEME_ICONS = { system: SunMoon, light: Sun, dark: Moon };

const THEME_WORDS: Readonly<Record<Theme, string>> = {
  system: 'Look: as the system',
  light: 'Look: bright',
  dark: 'Look: dark',
};

/** What became of the work, in a few words and in a sentence. */
function keptText({ access, kept, file, fileName }: SessionState): { short: string; long: string } {
  if (access === 'theirs') return { short: 'Read only', long: 'This plan is open in another tab, which writes it.' };
  if (kept === 'failed')
    return {
      short: 'Not kept',
      long: 'This browser could not keep the plan. Save it to a file before you close the page.',
    };
  const inFile =
    file === 'none'
      ? 'It is in no file of yours yet.'
      : file === 'current'
        ? `“${fileName}” has everything.`
        : `“${fileName}” lacks the last changes.`;
  if (kept !== 'kept') return { short: 'Keeping …', long: inFile };
  if (file === 'current') return { short: 'Saved', long: inFile };
  return { short: file === 'none' ? 'Kept here' : 'Not in the file', long: `Kept in this browser. ${inFile}` };
}

/** A moment as the user's own calendar and clock write it. */
const when = (keptAt: number) => new Date(keptAt).toLocaleString(undefined, { dateStyle: 'short', timeStyle: 'short' });

interface ToolProps {
  readonly label: string;
  readonly keys?: string;
  readonly onPress: () => void;
  readonly isDisabled?: boolean;
  readonly className?: string;
  readonly children: ReactNode;
}

function Tool({ label, keys, className = '', ...rest }: ToolProps) {
  return (
    <Hint text={label} keys={keys}>
      <Button {...rest} className={`icon-button ${className}`} aria-label={label} />
    </Hint>
  );
}

export function FileBar({
  onNew,
  onStarter,
  onOpen,
  onSave,
  earlier,
  onMenu,
  onReopen,
  onSample,
  onSheet,
  onHelp,
}: FileBarProps) {
  const { session: work } = useWorkplace();
  const { editor, plan, units, run } = usePanel();
  const session = useStore(work.state);
  const theme = useEditor(editor, (state) => state.theme);
  const canUndo = useEditor(editor, ({ history }) => history.past.length > 0);
  const canRedo = useEditor(editor, ({ history }) => history.future.length > 0);
  const { short, long } = keptText(session);
  const isReadOnly = session.access !== 'mine';
  const status = useId();
  const isMm = units === 'mm';
  const ThemeIcon = THEME_ICONS[theme];
  const turnUnits = () => void run({ type: 'setUnits', units: isMm ? 'in' : 'mm' });
  const turnTheme = () => editor.set({ theme: NEXT_THEME[theme] });
  const key = (letter: string) => (
    <Keyboard>
      {COMMAND} {letter}
    </Keyboard>
  );
  const sheets = 'Sheets to print or send';
  const toFile = 'Save to file';
  return (
    <Toolbar className="file-bar" aria-label="Document">
      <MenuTrigger onOpenChange={(isOpen) => isOpen && onMenu()}>
        <Button className="button button-quiet file-menu" aria-label="File">
          <MenuIcon aria-hidden="true" /> <span>File</span>
        </Button>
        <Popover className="popover" placement="bottom start">
          <Menu className="menu">
            <MenuEntry id="new" icon={FilePlus2} name="New plan" onAction={onNew} />
            <MenuEntry id="starter" icon={Drum} name="Starter kit …" textValue="Starter kit" onAction={onStarter} />
            <MenuEntry id="open" icon={FolderOpen} name="Open …" textValue="Open" after={key('O')} onAction={onOpen} />
            <MenuEntry
              id="save"
              icon={Save}
              name={toFile}
              textValue="Save"
              after={key('S')}
              onAction={() => onSave(false)}
            />
            <MenuEntry
              id="saveAs"
              icon={SaveAll}
              name="Save to another file …"
              textValue="Save as"
              onAction={() => onSave(true)}
            />
            <MenuEntry id="sheet" icon={FileText} name={`${sheets} …`} textValue={sheets} onAction={onSheet} />
            <Separator className="menu-line" />
            <MenuEntry
              id="units"
              icon={Ruler}
              name={`Lengths in ${isMm ? 'feet and inches' : 'millimetres'}`}
              textValue="Lengths"
              isDisabled={isReadOnly}
              onAction={turnUnits}
            />
            <MenuEntry id="theme" icon={ThemeIcon} name={THEME_WORDS[theme]} textValue="Look" onAction={turnTheme} />
            <Separator className="menu-line" />
            {earlier.length > 0 && (
              <MenuSection>
                <Header className="menu-header">Open before</Header>
                {earlier.map(({ id, name, keptAt }) => (
                  <MenuEntry
                    key={id}
                    id={`earlier ${id}`}
                    icon={History}
                    name={name || 'Unnamed plan'}
                    textValue={`${name || 'Unnamed plan'}, ${when(keptAt)}`}
                    after={<small>{when(keptAt)}</small>}
                    onAction={() => onReopen(id)}
                  />
                ))}
              </MenuSection>
            )}
            <MenuSection>
              <Header className="menu-header">Samples</Header>
              {SAMPLES.map((one) => (
                <MenuEntry
                  key={one.id}
                  id={`sample ${one.id}`}
                  icon={Library}
                  name={one.name}
                  onAction={() => onSample(one)}
                />
              ))}
            </MenuSection>
          </Menu>
        </Popover>
      </MenuTrigger>
      <h1 className="plan-name">{plan.name || 'Unnamed plan'}</h1>
      <span className="kept" data-kept={session.kept} data-file={session.file} id={status} title={long}>
        <span className="kept-dot" aria-hidden="true" />
        {/* Every change is kept within a second: only what needs an answer is spoken. */}
        <span className="kept-words" role={isReadOnly || session.kept === 'failed' ? 'status' : undefined}>
          {short}
        </span>
      </span>
      {session.access === 'theirs' && (
        <TextButton look="main" onPress={work.takeOver} aria-describedby={status}>
          Take over
        </TextButton>
      )}
      <span className="bar-space" />
      <Tool label="Undo" keys={`${COMMAND} Z`} onPress={editor.undo} isDisabled={!canUndo || isReadOnly}>
        <Undo2 />
      </Tool>
      <Tool label="Redo" keys={`${COMMAND} Shift Z`} onPress={editor.redo} isDisabled={!canRedo || isReadOnly}>
        <Redo2 />
      </Tool>
      <Tool label={toFile} keys={`${COMMAND} S`} className="wide-only" onPress={() => onSave(false)}>
        <Save />
      </Tool>
      <Tool label={sheets} className="wide-only" onPress={onSheet}>
        <FileText />
      </Tool>
      <Tool
        label={`Lengths in ${isMm ? 'millimetres' : 'feet and inches'}`}
        className="unit-button wide-only"
        onPress={turnUnits}
        isDisabled={isReadOnly}
      >
        <Ruler aria-hidden="true" />
        <span>{units}</span>
      </Tool>
      <Tool label={THEME_WORDS[theme]} className="wide-only" onPress={turnTheme}>
        <ThemeIcon />
      </Tool>
      <Tool label="Help" keys="F1" onPress={onHelp}>
        <CircleHelp />
      </Tool>
    </Toolbar>
  );
}
