/** The bar at the top: the document and its file, undo and redo, the sheet, units, the look, help. */
import {
  CircleHelp,
  Drum,
  FilePlus2,
  FileText,
  FolderOpen,
  History,
  Library,
  LibraryBig,
  Link,
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
import { Button, Keyboard, Toolbar } from 'react-aria-components';
import { useStore } from 'zustand';
import { Hint } from '../../panels/shared/Hint.tsx';
import { MenuButton } from '../../panels/shared/MenuButton.tsx';
import type { MenuPart } from '../../panels/shared/menuParts.ts';
import { TextButton } from '../../panels/shared/TextButton.tsx';
import { usePanel } from '../../state/panelContext.ts';
import { type Theme, useEditor } from '../../state/store.ts';
import type { SessionState } from '../../storage/session.ts';
import { useWorkplace } from '../workplace.ts';
import { SAMPLES, type Sample } from './samples.ts';
import './file.css';

export interface FileBarProps {
  readonly onNew: () => void;
  /** A new plan that begins with a kit. */
  readonly onStarter: () => void;
  readonly onOpen: () => void;
  readonly onSave: (elsewhere: boolean) => void;
  readonly onPlans: () => void;
  readonly onVersions: () => void;
  readonly onSample: (sample: Sample) => void;
  readonly onSheet: () => void;
  readonly onLink: () => void;
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

/** What a browser gives to secure pages only, for whoever serves the page on a local network. */
const PLAIN_HTTP =
  'The page came over plain http: it does not open offline, saves by download, and does not know of other tabs.';

/** What became of the work, in a few words and in a sentence. */
function keptText({ access, kept, file, fileName }: SessionState): { short: string; long: string } {
  if (access === 'theirs') return { short: 'Read only', long: 'This plan is open in another tab, which writes it.' };
  if (kept === 'failed')
    return {
      short: 'Not kept',
      long: 'This browser has no room for the plan, or lets this page keep nothing: save it to a file. It is tried again by itself.',
    };
  const inFile =
    file === 'none'
      ? 'It is in no file of yours yet.'
      : file === 'current'
        ? `“${fileName}” has everything.`
        : `“${fileName}” lacks the last changes.`;
  if (file === 'current') return { short: 'Saved', long: inFile };
  const long = `Kept in this browser. ${inFile}${isSecureContext ? '' : ` ${PLAIN_HTTP}`}`;
  return { short: file === 'none' ? 'Kept here' : 'Not in the file', long };
}

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
  onPlans,
  onVersions,
  onSample,
  onSheet,
  onLink,
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
  const parts: MenuPart[] = [
    {
      entries: [
        { id: 'new', icon: FilePlus2, name: 'New plan', onAction: onNew },
        { id: 'starter', icon: Drum, name: 'Starter kit …', textValue: 'Starter kit', onAction: onStarter },
        { id: 'open', icon: FolderOpen, name: 'Open …', textValue: 'Open', after: key('O'), onAction: onOpen },
        { id: 'save', icon: Save, name: toFile, textValue: 'Save', after: key('S'), onAction: () => onSave(false) },
        {
          id: 'saveAs',
          icon: SaveAll,
          name: 'Save to another file …',
          textValue: 'Save as',
          onAction: () => onSave(true),
        },
        { id: 'plans', icon: LibraryBig, name: 'Plans kept here …', textValue: 'Plans', onAction: onPlans },
        { id: 'versions', icon: History, name: 'Versions of this plan …', textValue: 'Versions', onAction: onVersions },
        { id: 'sheet', icon: FileText, name: `${sheets} …`, textValue: sheets, onAction: onSheet },
        { id: 'link', icon: Link, name: 'Link to this plan …', textValue: 'Link to this plan', onAction: onLink },
      ],
    },
    {
      entries: [
        {
          id: 'units',
          icon: Ruler,
          name: `Lengths in ${isMm ? 'feet and inches' : 'millimetres'}`,
          textValue: 'Lengths',
          isDisabled: isReadOnly,
          onAction: turnUnits,
        },
        { id: 'theme', icon: ThemeIcon, name: THEME_WORDS[theme], textValue: 'Look', onAction: turnTheme },
      ],
    },
    {
      header: 'Samples',
      entries: SAMPLES.map((one) => ({
        id: `sample ${one.id}`,
        icon: Library,
        name: one.name,
        onAction: () => onSample(one),
      })),
    },
  ];
  return (
    <Toolbar className="file-bar" aria-label="Document">
      <MenuButton className="button button-quiet file-menu" label="File" parts={parts}>
        <MenuIcon aria-hidden="true" /> <span>File</span>
      </MenuButton>
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
