/** The drawing's own tools: select, measure, move the view; grid and carrying; zoom. */
import { Grid3x3, Hand, Link2, Maximize, Minus, MousePointer2, PanelBottom, Plus, Ruler } from 'lucide-react';
import type { ReactElement, ReactNode } from 'react';
import { ToggleButton, ToggleButtonGroup, Toolbar, Tooltip, TooltipTrigger } from 'react-aria-components';
import { COARSE_WORDS } from '../../state/steps.ts';
import { type Editor, type Tool, useEditor } from '../../state/store.ts';
import { IconButton } from '../shared/IconButton.tsx';

const ZOOM_STEP = 1.25;

function Hint({
  text,
  keys,
  children,
}: {
  readonly text: string;
  readonly keys: string;
  readonly children: ReactElement;
}) {
  return (
    <TooltipTrigger delay={400}>
      {children}
      <Tooltip className="tooltip" placement="right" offset={6}>
        {text}
        <kbd>{keys}</kbd>
      </Tooltip>
    </TooltipTrigger>
  );
}

const TOOLS: readonly { readonly id: Tool; readonly text: string; readonly keys: string; readonly icon: ReactNode }[] =
  [
    { id: 'select', text: 'Select and move', keys: 'S', icon: <MousePointer2 /> },
    { id: 'measure', text: 'Measure between two pieces', keys: 'M', icon: <Ruler /> },
    { id: 'pan', text: 'Pan the view', keys: 'P', icon: <Hand /> },
  ];

export function Tools({ editor }: { readonly editor: Editor }) {
  const tool = useEditor(editor, (state) => state.tool);
  const snaps = useEditor(editor, (state) => state.snaps);
  const carries = useEditor(editor, (state) => state.carries);
  const elevation = useEditor(editor, (state) => state.elevation);
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
          <Hint key={id} text={text} keys={keys}>
            <ToggleButton id={id} className="icon-button" aria-label={text}>
              {icon}
            </ToggleButton>
          </Hint>
        ))}
      </ToggleButtonGroup>
      <div className="tool-group">
        <Hint text={`Move in steps of ${COARSE_WORDS} and 5°`} keys="G">
          <ToggleButton
            className="icon-button"
            aria-label={`Move in steps of ${COARSE_WORDS} and 5 degrees`}
            isSelected={snaps}
            onChange={editor.setSnaps}
          >
            <Grid3x3 />
          </ToggleButton>
        </Hint>
        <Hint text="Carry along what hangs on a rack or stand" keys="C">
          <ToggleButton
            className="icon-button"
            aria-label="Carry along what hangs on a rack or stand"
            isSelected={carries}
            onChange={editor.setCarries}
          >
            <Link2 />
          </ToggleButton>
        </Hint>
        <Hint text="Side elevation beneath the plan" keys="E">
          <ToggleButton
            className="icon-button"
            aria-label="Side elevation beneath the plan"
            isSelected={elevation !== null}
            onChange={(shown) => editor.setElevation(shown ? 'audience' : null)}
          >
            <PanelBottom />
          </ToggleButton>
        </Hint>
      </div>
      <div className="tool-group">
        <Hint text="Zoom in" keys="+">
          <IconButton icon={Plus} label="Zoom in" onPress={() => editor.zoomBy(ZOOM_STEP)} />
        </Hint>
        <Hint text="Zoom out" keys="−">
          <IconButton icon={Minus} label="Zoom out" onPress={() => editor.zoomBy(1 / ZOOM_STEP)} />
        </Hint>
        <Hint text="Show the whole plan" keys="0">
          <IconButton icon={Maximize} label="Show the whole plan" onPress={editor.fitView} />
        </Hint>
      </div>
    </Toolbar>
  );
}
