/** The setups strip on the editor's state. */
import { liveOf } from '../../live.ts';
import { SetupsStrip } from '../setups/SetupsStrip.tsx';
import { summaryOf } from '../setups/summary.ts';
import { usePanel } from '../shared/panelContext.ts';
import { useWorkplace } from './workplace.ts';

export function SetupsBar() {
  const { plan } = usePanel();
  const { editor } = useWorkplace();
  const summaries = plan.order.map((id) => summaryOf(plan, id, liveOf));
  return <SetupsStrip summaries={summaries} onChoose={editor.chooseSetup} />;
}
