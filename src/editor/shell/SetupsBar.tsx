/** The setups strip on the editor's state. */

import { SetupsStrip } from '../panels/setups/SetupsStrip.tsx';
import { summaryOf } from '../panels/setups/summary.ts';
import { liveOf } from '../state/live.ts';
import { usePanel } from '../state/panelContext.ts';
import { useWorkplace } from './workplace.ts';

export function SetupsBar() {
  const { plan } = usePanel();
  const { editor } = useWorkplace();
  const summaries = plan.order.map((id) => summaryOf(plan, id, liveOf));
  return <SetupsStrip summaries={summaries} onChoose={editor.chooseSetup} />;
}
