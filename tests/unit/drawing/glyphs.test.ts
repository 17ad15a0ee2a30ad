/** Glyphs against closed forms: where a tilted drum's rim is, and that nothing is drawn outside a piece's body. */
import { expect, test } from 'vitest';
import { drawCymbal } from '../../../src/drawing/cymbals.ts';
import { type EllipseMark, type Mark, style, THIN, WIDE } from '../../../src/drawing/displayList.ts';
import { drawBassDrum, drawDrum } from '../../../src/drawing/drums.ts';
import { stretchesOf } from '../../../src/drawing/edges.ts';
import { drawPedal } from '../../../src/drawing/pedals.ts';
import { Pen } from '../../../src/drawing/pen.ts';
import { drawSeat } from '../../../src/drawing/seats.ts';
import type { GearOf } from '../../../src/gear/schema.ts';
import { capsule, disc, moved, rectangle, type Swept } from '../../../src/geometry/shapes.ts';
import { signedDistance } from '../../../src/geometry/unionInside.ts';

const tom: GearOf<'drum'> = {
  kind: 'drum',
  id: 'tom',
  name: 'Tom',
  massKg: 3,
  use: 'rackTom',
  diameterMm: 300,
  depthMm: 200,
  hoopMm: 10,
  playHeightMm: 800,
};
const RADIUS = 160;

const HEADING = 0.7;
const AT = { angle: HEADING, dx: 400, dy: -250 };

function drawn(draw: (pen: Pen) => void): Mark[] {
  const pen = new Pen(AT, style('drums', { tint: 'middle' }));
  draw(pen);
  return pen.marks;
}

const ellipses = (marks: readonly Mark[]) =>
  marks.filter((mark): mark is EllipseMark => mark.kind === 'ellipse').sort((a, b) => b.rx - a.rx);

test.each([5, 12, 30, -20])(
  'a drum tilted by %i degrees: rims as true ellipses, the bottom slid by depth sin(tilt)',
  (deg) => {
    const tilt = (deg * Math.PI) / 180;
    const [first, second, head] = ellipses(drawn((pen) => drawDrum(pen, tom, tilt, THIN)));
    for (const rim of [first, second]) {
      expect(rim.rx).toBeCloseTo(RADIUS, 9);
      expect(rim.ry).toBeCloseTo(RADIUS * Math.cos(tilt), 9);
      expect(rim.rotation).toBeCloseTo(HEADING, 12);
    }
    // The top is at the anchor. The bottom lies toward own -y, downstage at heading 0, when the back edge is lowered.
    const top = [first, second].find((rim) => Math.hypot(rim.cx - AT.dx, rim.cy - AT.dy) < 1e-9);
    const bottom = [first, second].find((rim) => rim !== top);
    const slide = 200 * Math.sin(tilt);
    expect(bottom?.cx).toBeCloseTo(AT.dx + slide * Math.sin(HEADING), 9);
    expect(bottom?.cy).toBeCloseTo(AT.dy - slide * Math.cos(HEADING), 9);
    expect(head.ry / head.rx).toBeCloseTo(Math.cos(tilt), 12);
  },
);

test('a level drum is circles, hoop and head, as wide as hoop included', () => {
  const radii = drawn((pen) => drawDrum(pen, tom, 0, WIDE)).flatMap((mark) => (mark.kind === 'circle' ? [mark.r] : []));
  expect(radii).toEqual([RADIUS, 148]);
});

const bass: GearOf<'bassDrum'> = {
  kind: 'bassDrum',
  id: 'b',
  name: 'B',
  massKg: 9,
  diameterMm: 560,
  depthMm: 400,
  hoopMm: 12,
};
const crash: GearOf<'cymbal'> = {
  kind: 'cymbal',
  id: 'c',
  name: 'C',
  massKg: 1,
  use: 'china',
  diameterMm: 406,
  profileMm: 40,
  playHeightMm: 1100,
};
const pedal: GearOf<'pedal'> = {
  kind: 'pedal',
  id: 'p',
  name: 'P',
  massKg: 2,
  use: 'single',
  boardLengthMm: 310,
  boardWidthMm: 90,
  plateWidthMm: 140,
  heightMm: 250,
};
const saddle: GearOf<'throne'> = {
  kind: 'throne',
  id: 't',
  name: 'T',
  massKg: 7,
  seat: 'saddle',
  widthMm: 420,
  depthMm: 380,
  baseRadiusMm: 290,
  heightMm: [450, 600],
};

test.each<[string, (pen: Pen) => void, Swept]>([
  ['level drum', (pen) => drawDrum(pen, tom, 0, THIN), disc(0, 0, RADIUS)],
  ['tilted drum', (pen) => drawDrum(pen, tom, 0.35, THIN), capsule(0, 0, 0, -200 * Math.sin(0.35), RADIUS)],
  ['tilted cymbal', (pen) => drawCymbal(pen, crash, 0.3), disc(0, 0, 203)],
  ['pedal', (pen) => drawPedal(pen, pedal, WIDE), rectangle(0, 0, 140, 310, 0)],
  ['saddle', (pen) => drawSeat(pen, saddle, WIDE), rectangle(0, 0, 420, 380, 0)],
  ['bass drum', (pen) => drawBassDrum(pen, bass, WIDE), rectangle(0, 0, 584, 400, 0)],
])('%s: nothing of it is drawn outside its body', (_, draw, body) => {
  const shape = moved(body, AT);
  const marks = drawn(draw).filter((mark) => mark.layer !== 'centre');
  expect(marks.length).toBeGreaterThanOrEqual(2);
  for (const mark of marks)
    for (const stretch of stretchesOf(mark))
      for (let k = 0; k <= 50; k++) expect(signedDistance(shape, ...stretch.at(k / 50))).toBeLessThan(1e-6);
});
