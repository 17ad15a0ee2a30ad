import { describe, expect, test } from 'vitest';
import { runChecks } from '../../../src/checks/run.ts';
import { sheetFonts } from '../../../src/cli/fonts.ts';
import { layoutSetup } from '../../../src/layout/layout.ts';
import { newPlan } from '../../../src/plan/newPlan.ts';
import type { Plan } from '../../../src/plan/schema.ts';
import { measureWith } from '../../../src/sheets/page.ts';
import { barFor, SCALES } from '../../../src/sheets/scaleBar.ts';
import type { Sheet } from '../../../src/sheets/sheet.ts';
import { toSvg } from '../../../src/sheets/svg.ts';
import { venueSheets } from '../../../src/sheets/venueSheet.ts';
import { checkedOf, layoutOf, SAMPLE_PLANS } from '../../fixtures/samplePlans.ts';
import { outsideFrame, textsOnTexts } from '../../fixtures/sheetLaws.ts';
import { someInputs, stagePlan } from '../../fixtures/stagePlan.ts';

const fonts = sheetFonts();
const measure = measureWith(fonts);

/** Sheets made once for each plan, setup and paper. */
const made = new Map<Plan, Map<string, Sheet[]>>();

function sheetsOf(plan: Plan, id: string, paper: 'a4' | 'letter'): Sheet[] {
  const ofPlan = made.get(plan) ?? new Map<string, Sheet[]>();
  made.set(plan, ofPlan);
  const before = ofPlan.get(`${id} ${paper}`);
  if (before) return before;
  const options = { paper, date: '2026-03-14', fonts, flags: true } as const;
  const sheets = venueSheets(plan, id, layoutOf(plan, id), checkedOf(plan, id), options);
  ofPlan.set(`${id} ${paper}`, sheets);
  return sheets;
}

const samples = SAMPLE_PLANS.map(({ plan }) => plan);

/** The stage's plan with a list of its own: long, and with texts wider than any column. */
function crowdedPlan(): Plan {
  const plan = stagePlan();
  const inputs = someInputs(90).map((input) => ({ ...input, note: `${'Longword'.repeat(12)} and more` }));
  const mixes = [{ id: 'm', name: 'Everybody', by: 'wedge' as const, wants: 'A little more of it all. '.repeat(150) }];
  const contact = 'A line of the address\n'.repeat(30);
  const curved = { ...plan.setups.curved, inputs, mixes };
  return { ...plan, name: 'Crowded', contact, setups: { curved } };
}

const cases = [
  ...samples,
  stagePlan(),
  { ...stagePlan(), name: 'In millimetres', units: 'mm' as const },
  crowdedPlan(),
].flatMap((plan) =>
  (['a4', 'letter'] as const).map((paper): [string, Plan, 'a4' | 'letter'] => [
    `${plan.name} on ${paper}`,
    plan,
    paper,
  ]),
);

const textsOf = (sheet: Sheet): string[] => sheet.marks.flatMap((mark) => (mark.kind === 'text' ? [mark.text] : []));

describe.each(cases)('%s', (_, plan, paper) => {
  const sheets = sheetsOf(plan, plan.order[0], paper);

  test('everything lies within the frame, 10 mm from the paper’s edges', () =>
    expect(sheets.flatMap((sheet) => outsideFrame(sheet, measure))).toEqual([]));

  test('no text lies on another', () => expect(sheets.flatMap((sheet) => textsOnTexts(sheet, measure))).toEqual([]));

  test('every drawing says scale, audience, sides of the stage, setup, date and caution', () => {
    for (const { marks } of sheets.filter(({ subject }) => subject.startsWith('Venue'))) {
      const texts = marks.flatMap((mark) => (mark.kind === 'text' ? [mark.text] : []));
      const scale = texts.find((text) => /^1:\d+$/.test(text));
      expect(SCALES).toContain(Number(scale?.slice(2)));
      for (const text of [
        'AUDIENCE',
        'STAGE LEFT',
        'STAGE RIGHT',
        'UPSTAGE',
        '2026-03-14',
        plan.setups[plan.order[0]].name,
      ])
        expect(texts).toContain(text);
      expect(texts.join(' ')).toContain('Local codes');
    }
  });
});

test.each(cases)('%s has its input list on exactly one page', (_, plan, paper) => {
  const lists = sheetsOf(plan, plan.order[0], paper).filter(({ marks }) =>
    marks.some((mark) => mark.kind === 'text' && /^Input list(, proposed)?$/.test(mark.text)),
  );
  expect(lists).toHaveLength(1);
});

test('a kit alone has drawing, input list, figures and cautions on one page of A4; notes to the inputs do not cost one', () => {
  const plan = samples.find(({ name }) => name === 'One kit on four bases')!;
  const [id] = plan.order;
  const setup = plan.setups[id];
  const noted = {
    ...plan,
    setups: { [id]: { ...setup, inputs: someInputs(6).map((each) => ({ ...each, note: 'own' })) } },
  };
  for (const one of [plan, noted]) {
    const sheets = sheetsOf(one, id, 'a4');
    expect(sheets).toHaveLength(1);
    const texts = textsOf(sheets[0]).join(' ');
    for (const text of ['Input list', 'Least edge margin', 'Local codes', plan.contact ?? ''])
      expect(texts).toContain(text);
  }
});

test('a contact too long for the title block gets the lists a page of their own, where all of it stands', () => {
  const plan = samples.find(({ name }) => name === 'One kit on four bases')!;
  const contact = Array.from({ length: 5 }, (_, k) => `Line ${k + 1} of the address`).join('\n');
  const sheets = sheetsOf({ ...plan, contact }, plan.order[0], 'a4');
  expect(sheets).toHaveLength(2);
  for (const line of contact.split('\n')) expect(textsOf(sheets[1])).toContain(line);
});

test('an empty setup without a riser still gives a sheet', () => {
  const plan = newPlan('Nothing yet');
  const [id] = plan.order;
  const bare = { ...plan, setups: { [id]: { ...plan.setups[id], riser: null } } };
  const [sheet] = sheetsOf(bare, id, 'a4');
  const texts = sheet.marks.flatMap((mark) => (mark.kind === 'text' ? [mark.text] : []));
  expect(texts).toContain('none: kit on the stage floor');
});

test('a setup that the plan does not have is refused', () => {
  const plan = newPlan('Plan');
  const layout = layoutSetup(plan, plan.order[0]);
  const checked = runChecks(plan, plan.order[0], layout);
  const options = { paper: 'a4', date: '2026-03-14', fonts } as const;
  expect(() => venueSheets(plan, 'constructor', layout, checked, options)).toThrow(/no setup/);
});

test.each([
  [10, 'mm', 500],
  [20, 'mm', 1000],
  [50, 'mm', 2000],
  [20, 'in', 4 * 304.8],
] as const)('the bar at 1:%i in %s stands for %f mm', (scale, unit, mm) =>
  expect(barFor(scale, unit).mm).toBeCloseTo(mm, 9),
);

describe('a stage', () => {
  const plan = stagePlan();
  const sheets = sheetsOf(plan, 'curved', 'a4');
  const [drawings, lists] = sheets.map(textsOf);

  test('is two pages, drawings on the first and lists on the second', () => {
    expect(sheets).toHaveLength(2);
    expect(drawings).toContain('Hall stage, 1:100');
    expect(drawings).toContain('The kit, 1:20');
    for (const heading of ['Monitor mixes', 'Power', 'Cable runs', 'The venue provides', 'Contact', 'Cautions'])
      expect(lists).toContain(heading);
  });

  test('everybody and everything on it is named, with channels at what takes them', () => {
    const joined = drawings.join(' ');
    for (const name of ['Guitar amp', 'Bass amp', 'Keys player', 'Drum wedge', 'Wing,', 'Cable 1: Multicore'])
      expect(joined).toContain(name);
    // The lead microphone is the eleventh channel of the list.
    expect(lists[lists.indexOf('Lead microphone') - 1]).toBe('11');
    expect(joined).toMatch(/Lead microphone,( |) ?ch 11/);
    for (const number of ['ch 1', 'ch 2', 'ch 6', 'ch 9']) expect(drawings).toContain(number);
  });

  test('mixes have their numbers in the drawing and in the list', () => {
    const glyphs = sheets[0].marks.flatMap((mark) =>
      mark.kind === 'text' && mark.layer === 'stage' ? [[mark.pieceId, mark.text]] : [],
    );
    expect(Object.fromEntries(glyphs)).toEqual({
      'drum-wedge': '1',
      singer: '2',
      'bass-wedge': '3',
      'keys-player': '4',
    });
    expect(lists[lists.indexOf('Own voice, guitar, a little snare') - 3]).toBe('2');
  });

  test('power is added up, and what is not given is said', () => {
    // 1400 W and 2600 W at 230 V: 4000 W, 17.39 A.
    expect(lists).toContain('Total at 230 V: 4000 W, 17.4 A at least; the load of one drop is not given');
    expect(lists.filter((text) => text === 'not given')).toHaveLength(1);
  });

  test('a riser without a rating says so', () => {
    const [id] = Object.keys(plan.risers);
    const unrated = { ...plan, risers: { [id]: { ...plan.risers[id], ratedKPa: null } } };
    const texts = sheetsOf(unrated, 'curved', 'a4').flatMap(textsOf);
    expect(texts[texts.indexOf('Rated load') + 1]).toBe('not given');
  });

  test('the same call gives the same sheets', () => {
    expect(JSON.stringify(sheetsOf(stagePlan(), 'curved', 'a4'))).toBe(JSON.stringify(sheets));
  });

  const scaled = (scale: number) => {
    const layout = layoutSetup(plan, 'curved');
    const options = { paper: 'a4', date: '2026-03-14', fonts, scale } as const;
    return venueSheets(plan, 'curved', layout, runChecks(plan, 'curved', layout), options);
  };
  test('a chosen scale is that of the drawing that shows all', () => {
    expect(textsOf(scaled(200)[0])).toContain('1:200');
  });
  test('one that is too large is refused with what would do', () => {
    // The stage with its wings is 13.6 m wide: 272 mm at 1:50.
    expect(() => scaled(50)).toThrow(/At 1:50 the drawing takes \d+ x \d+ mm, and A4 paper .* Take 1:100/);
  });
  test('one that ISO 5455 does not have is refused', () =>
    expect(() => scaled(30)).toThrow(/1:30 is no scale of ISO 5455/));
});

test('samples with a stage take two pages on A4, three at most on Letter', () => {
  const staged = samples.flatMap((plan) =>
    plan.order.filter((id) => plan.setups[id].stage).map((id) => ({ plan, id })),
  );
  for (const { plan, id } of [...staged, { plan: stagePlan(), id: 'curved' }]) {
    expect(sheetsOf(plan, id, 'a4').length, plan.name).toBeLessThanOrEqual(2);
    expect(sheetsOf(plan, id, 'letter').length, plan.name).toBeLessThanOrEqual(3);
  }
});

test('lists that are too long go on, with nothing left out', () => {
  const sheets = sheetsOf(crowdedPlan(), 'curved', 'a4');
  const texts = sheets.flatMap(textsOf);
  expect(sheets.length).toBeGreaterThan(3);
  expect(texts).toContain('Input list, continued');
  for (let k = 2; k <= 90; k++) expect(texts).toContain(`Line ${k}`);
  expect(texts.join(' ').split('A little more of it all.').length - 1).toBe(150);
  expect(texts.filter((text) => text.includes('…'))).toEqual([]);
});

describe('as SVG', () => {
  const [plan] = samples;
  const named = { ...plan, name: 'Kit <A> & "live"' };
  const svg = toSvg(sheetsOf(named, named.order[0], 'a4')[0]);

  test('it is in mm, with names escaped', () => {
    expect(svg).toMatch(/^<svg [^>]*width="(210|297)mm"/);
    expect(svg).toContain('Kit &lt;A&gt; &amp; &quot;live&quot;');
    expect(svg).not.toMatch(/NaN|Infinity|undefined/);
  });

  test('every element that opens closes', () => {
    const stack: string[] = [];
    for (const [, slash, name, self] of svg.matchAll(/<(\/?)([a-z]+)[^>]*?(\/?)>/g)) {
      if (self) continue;
      if (slash) expect(stack.pop()).toBe(name);
      else stack.push(name);
    }
    expect(stack).toEqual([]);
  });

  test('round things keep their curves', () => {
    expect(svg.match(/<circle /g)?.length).toBeGreaterThan(5);
    expect(svg).toMatch(/ d="M[^"]*A/);
  });
});
