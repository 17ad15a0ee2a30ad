/** The drawing's own tools: select, measure, move the view; grid and carrying; zoom. */
import {
  Footprints,
  Grid3x3,
  Hand,
  Link2,
  Maximize,
  Minus,
  MousePointer2,
  PanelBottom,
  Plus,
  Ruler,
} from 'lucide-react';
import { ToggleButton, ToggleButtonGroup, Toolbar } from 'react-aria-components';
import { ZOOM_STEP } from '../../state/keys.ts';
import { COARSE_WORDS } from '../../state/steps.ts';
import { type Editor, type Tool, useEditor } from '../../state/store.ts';
import { Hint } from '../shared/Hint.tsx';
import { IconButton } from '../shared/IconButton.tsx';

const TOOLS = [
  { id: 'select', text: 'Select and move', keys: 'S', icon: <MousePointer2 /> },
  { id: 'measure', text: 'Measure between two pieces', keys: 'M', icon: <Ruler /> },
  { id: 'pan', text: 'Pan the view', keys: 'P', icon: <Hand /> },
] as const;

export function Tools({ editor }: { readonly editor: Editor }) {
  const tool = useEditor(editor, (state) => state.tool);
  const snaps = useEditor(editor, (state) => state.snaps);
  const carries = useEditor(editor, (state) => state.carries);
  const legs = useEditor(editor, (state) => state.legs);
  const elevation = useEditor(editor, (state) => state.elevation !== null);
  const grid = `Move in steps of ${COARSE_WORDS} and 5`;
  const switches = [
    {
      text: `${grid}°`,
      label: `${grid} degrees`,
      keys: 'G',
      icon: <Grid3x3 />,
      isOn: snaps,
      set: (is: boolean) => editor.set({ snaps: is }),
    },
    {
      text: 'Carry along what hangs on a rack or stand',
      keys: 'C',
      icon: <Link2 />,
      isOn: carries,
      set: (is: boolean) => editor.set({ carries: is }),
    },
    {
      text: 'The drummer’s legs on their pedals',
      keys: 'D',
      icon: <Footprints />,
      isOn: legs,
      set: (is: boolean) => editor.set({ legs: is }),
    },
    {
      text: 'Side elevation beneath the plan',
      keys: 'E',
      icon: <PanelBottom />,
      isOn: elevation,
      set: (is: boolean) => editor.set({ elevation: is ? 'audience' : null }),
    },
  ];
  const views = [
    { text: 'Zoom in', keys: '+', icon: Plus, press: () => editor.zoomBy(ZOOM_STEP) },
    { text: 'Zoom out', keys: '−', icon: Minus, press: () => editor.zoomBy(1 / ZOOM_STEP) },
    { text: 'Show the whole plan', keys: '0', icon: Maximize, press: editor.fitView },
  ];
  return (
    <Toolbar className="drawing-tools" orientation="vertical" aria-label="Drawing">
      <ToggleButtonGroup
        className="tool-group"
        aria-label="Tool"
        selectionMode="single"
        disallowEmptySelection
        orientation="vertical"
        selectedKeys={[tool]}
        onSelectionChange={([next]) => editor.setTool(next as Tool)}
      >
        {TOOLS.map(({ id, text, keys, icon }) => (
          <Hint key={id} text={text} keys={keys} placement="right">
            <ToggleButton id={id} className="icon-button" aria-label={text}>
              {icon}
            </ToggleButton>
          </Hint>
        ))}
      </ToggleButtonGroup>
      <div className="tool-group">
        {switches.map(({ text, label = text, keys, icon, isOn, set }) => (
          <Hint key={keys} text={text} keys={keys} placement="right">
            <ToggleButton className="icon-button" aria-label={label} isSelected={isOn} onChange={set}>
              {icon}
            </ToggleButton>
          </Hint>
        ))}
      </div>
      <div className="tool-group">
        {views.map(({ text, keys, icon, press }) => (
          <Hint key={keys} text={text} keys={keys} placement="right">
            <IconButton icon={icon} label={text} onPress={press} />
          </Hint>
        ))}
      </div>
    </Toolbar>
  );
}
