/** The bar at the top: the document and its file, undo and redo, the sheet, units, the look, help. */
import {
  CircleHelp,
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
  MenuItem,
  MenuSection,
  MenuTrigger,
  Popover,
  Separator,
  Toolbar,
  Tooltip,
  TooltipTrigger,
} from 'react-aria-components';
import type { DisplayUnit } from '../../../units.ts';
import type { EarlierPlan, SessionState } from '../../storage/session.ts';
import type { Sample } from './samples.ts';
import './file.css';

type Theme = 'system' | 'light' | 'dark';

export interface FileBarProps {
  readonly planName: string;
  readonly session: SessionState;
  readonly canUndo: boolean;
  readonly canRedo: boolean;
  readonly onUndo: () => void;
  readonly onRedo: () => void;
  readonly onNew: () => void;
  readonly onOpen: () => void;
  readonly onSave: (elsewhere: boolean) => void;
  /** Plans that were open before, the newest first. */
  readonly earlier: readonly EarlierPlan[];
  /** The menu is about to show: what it lists should be of now. */
  readonly onMenu: () => void;
  readonly onReopen: (id: string) => void;
  readonly samples: readonly Sample[];
  readonly onSample: (sample: Sample) => void;
  readonly onSheet: () => void;
  readonly units: DisplayUnit;
  readonly onUnits: (units: DisplayUnit) => void;
  readonly theme: Theme;
  readonly onTheme: (theme: Theme) => void;
  readonly onHelp: () => void;
  readonly onTakeOver: () => void;
  /** More tools of the page, at the end of the bar. */
  readonly children?: ReactNode;
}

const NEXT_THEME: Readonly<Record<Theme, Theme>> = { system: 'light', light: 'dark', dark: 'system' };
/** The key that goes with letters on this system's keyboards. */
const COMMAND = /Mac|iPhone|iPad/.test(globalThis.navigator?.platform ?? '') ? '⌘' : 'Ctrl';

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

function Tool({ label, keys, onPress, isDisabled, className = '', children }: ToolProps) {
  return (
    <TooltipTrigger delay={400}>
      <Button className={`icon-button ${className}`} aria-label={label} onPress={onPress} isDisabled={isDisabled}>
        {children}
      </Button>
      <Tooltip className="tooltip" offset={6}>
        {label}
        {keys !== undefined && <kbd>{keys}</kbd>}
      </Tooltip>
    </TooltipTrigger>
  );
}

export function FileBar(props: FileBarProps) {
  const { session, samples, earlier, theme } = props;
  const { short, long } = keptText(session);
  const isReadOnly = session.access !== 'mine';
  const status = useId();
  const themeIcon = { system: <SunMoon />, light: <Sun />, dark: <Moon /> }[theme];
  const act = (key: string) => {
    const sample = samples.find(({ id }) => `sample ${id}` === key);
    if (sample !== undefined) return props.onSample(sample);
    if (key.startsWith('earlier ')) props.onReopen(key.slice('earlier '.length));
    else if (key === 'new') props.onNew();
    else if (key === 'open') props.onOpen();
    else if (key === 'save') props.onSave(false);
    else if (key === 'saveAs') props.onSave(true);
    else if (key === 'sheet') props.onSheet();
    else if (key === 'units') props.onUnits(props.units === 'mm' ? 'in' : 'mm');
    else if (key === 'theme') props.onTheme(NEXT_THEME[theme]);
  };
  return (
    <Toolbar className="file-bar" aria-label="Document">
      <MenuTrigger onOpenChange={(isOpen) => isOpen && props.onMenu()}>
        <Button className="button button-quiet file-menu" aria-label="File">
          <MenuIcon aria-hidden="true" /> <span>File</span>
        </Button>
        <Popover className="popover" placement="bottom start">
          <Menu className="menu" onAction={(key) => act(key as string)} disabledKeys={isReadOnly ? ['units'] : []}>
            <MenuItem id="new" className="menu-item" textValue="New plan">
              <FilePlus2 aria-hidden="true" /> New plan
            </MenuItem>
            <MenuItem id="open" className="menu-item" textValue="Open">
              <FolderOpen aria-hidden="true" /> Open … <Keyboard>{COMMAND} O</Keyboard>
            </MenuItem>
            <MenuItem id="save" className="menu-item" textValue="Save">
              <Save aria-hidden="true" /> Save to file <Keyboard>{COMMAND} S</Keyboard>
            </MenuItem>
            <MenuItem id="saveAs" className="menu-item" textValue="Save as">
              <SaveAll aria-hidden="true" /> Save to another file …
            </MenuItem>
            <MenuItem id="sheet" className="menu-item" textValue="Sheets to print or send">
              <FileText aria-hidden="true" /> Sheets to print or send …
            </MenuItem>
            <Separator className="menu-line" />
            <MenuItem id="units" className="menu-item" textValue="Lengths">
              <Ruler aria-hidden="true" /> Lengths in {props.units === 'mm' ? 'feet and inches' : 'millimetres'}
            </MenuItem>
            <MenuItem id="theme" className="menu-item" textValue="Look">
              {themeIcon} {THEME_WORDS[theme]}
            </MenuItem>
            <Separator className="menu-line" />
            {earlier.length > 0 && (
              <MenuSection>
                <Header className="menu-header">Open before</Header>
                {earlier.map(({ id, name, keptAt }) => (
                  <MenuItem
                    key={id}
                    id={`earlier ${id}`}
                    className="menu-item"
                    textValue={`${name || 'Unnamed plan'}, ${when(keptAt)}`}
                  >
                    <History aria-hidden="true" /> {name || 'Unnamed plan'} <small>{when(keptAt)}</small>
                  </MenuItem>
                ))}
              </MenuSection>
            )}
            <MenuSection>
              <Header className="menu-header">Samples</Header>
              {samples.map(({ id, name }) => (
                <MenuItem key={id} id={`sample ${id}`} className="menu-item" textValue={name}>
                  <Library aria-hidden="true" /> {name}
                </MenuItem>
              ))}
            </MenuSection>
          </Menu>
        </Popover>
      </MenuTrigger>
      <h1 className="plan-name">{props.planName || 'Unnamed plan'}</h1>
      <span className="kept" data-kept={session.kept} data-file={session.file} id={status} title={long}>
        <span className="kept-dot" aria-hidden="true" />
        {/* Every change is kept within a second: only what needs an answer is spoken. */}
        <span className="kept-words" role={isReadOnly || session.kept === 'failed' ? 'status' : undefined}>
          {short}
        </span>
      </span>
      {session.access === 'theirs' && (
        <Button className="button button-main" onPress={props.onTakeOver} aria-describedby={status}>
          Take over
        </Button>
      )}
      <span className="bar-space" />
      <Tool label="Undo" keys={`${COMMAND} Z`} onPress={props.onUndo} isDisabled={!props.canUndo || isReadOnly}>
        <Undo2 />
      </Tool>
      <Tool label="Redo" keys={`${COMMAND} Shift Z`} onPress={props.onRedo} isDisabled={!props.canRedo || isReadOnly}>
        <Redo2 />
      </Tool>
      <Tool label="Save to file" keys={`${COMMAND} S`} className="wide-only" onPress={() => props.onSave(false)}>
        <Save />
      </Tool>
      <Tool label="Sheets to print or send" className="wide-only" onPress={props.onSheet}>
        <FileText />
      </Tool>
      <Tool
        label={`Lengths in ${props.units === 'mm' ? 'millimetres' : 'feet and inches'}`}
        className="unit-button wide-only"
        onPress={() => props.onUnits(props.units === 'mm' ? 'in' : 'mm')}
        isDisabled={isReadOnly}
      >
        <Ruler aria-hidden="true" />
        <span>{props.units === 'mm' ? 'mm' : 'in'}</span>
      </Tool>
      <Tool label={THEME_WORDS[theme]} className="wide-only" onPress={() => props.onTheme(NEXT_THEME[theme])}>
        {themeIcon}
      </Tool>
      {props.children}
      <Tool label="Help" keys="F1" onPress={props.onHelp}>
        <CircleHelp />
      </Tool>
    </Toolbar>
  );
}
