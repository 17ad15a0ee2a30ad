/** New legs and bars for a rack, after the pattern of what stands next to them. */
import type { Bar, Leg, Rack, Span } from '../../../plan/schema.ts';
import { freeId } from '../gear/newPiece.ts';

const legIds = (rack: Rack) => rack.legs.map(({ id }) => id);
const barIds = (rack: Rack) => rack.spans.flatMap(({ bars }) => bars.map(({ id }) => id));

/** A new end leg and its span: the last ones once more, going straight on. */
export function nextLeg(rack: Rack): { leg: Leg; span: Span } {
  const leg = { ...rack.legs[rack.legs.length - 1], id: freeId('leg', legIds(rack)) };
  const pattern = rack.spans[rack.spans.length - 1];
  const bar = { ...pattern.bars[0], id: freeId('bar', barIds(rack)) };
  return { leg, span: { ...pattern, turnDeg: 0, bars: [bar] } };
}

/** Between two bars of one span a clamp and a hand need room. Common practice, no source. */
const BAR_SPACING_MM = 150;

/** A further bar of a span, above the highest one, or below the lowest where there is no room above. */
export function nextBar(rack: Rack, spanIndex: number): Bar {
  const { bars } = rack.spans[spanIndex];
  const heights = bars.map(({ heightMm }) => heightMm);
  const legTop = Math.min(rack.legs[spanIndex].lengthMm, rack.legs[spanIndex + 1].lengthMm);
  const above = Math.max(...heights) + BAR_SPACING_MM;
  const heightMm = above <= legTop ? above : Math.max(0, Math.min(...heights) - BAR_SPACING_MM);
  return { ...bars[0], id: freeId('bar', barIds(rack)), heightMm };
}
