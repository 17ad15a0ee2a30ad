/**
 * What must be set above the floor once the marks lie: heights and overhangs of racks, where each clamp sits, how each arm is set,
 * and the spot plumb under each piece. With the marks and the pull list, all that a stranger needs to build the kit again.
 *
 * Units: mm in, text in the plan's units out; coordinates in the frame of the marks.
 * Inputs: a layout of this setup; its arms as they must be set to reach (layout/reachMounts.ts).
 */

import { inFrame, type MarkFrame } from '../checks/marks/datums.ts';
import { tellApart, wayOfAngle } from '../checks/marks/floorMarks.ts';
import { socketWord } from '../gear/kinds.ts';
import type { Layout } from '../layout/layout.ts';
import type { BarLayout } from '../layout/racks.ts';
import type { MountPose } from '../layout/reachMounts.ts';
import { barsOf, carrierPiece } from '../plan/carriers.ts';
import type { Carrier, Item, Plan, Rack, Setup } from '../plan/schema.ts';
import { type DisplayUnit, formatAngle, toRadians } from '../units.ts';
import { fromCentre, fromFront, placeWord, tapeLength, WAY_WORDS } from './markWords.ts';

/** Cells of a row; a list is two lines. */
export interface Setting {
  readonly piece: string;
  /** The arm by which it is held: which of the pull list's goes where. */
  readonly by: string;
  readonly held: readonly string[];
  readonly post: string;
  /** On which side of its tube the post stands. */
  readonly postSide: string;
  readonly arm: string;
  readonly armTilt: string;
  readonly height: string;
  /** How far, and which edge is the low one. */
  readonly tilt: readonly string[];
  readonly fromCentre: string;
  readonly fromFront: string;
}

export interface SettingGroup {
  readonly heading: string;
  readonly rows: readonly Setting[];
}

const BLANK = {
  by: '',
  post: '',
  postSide: '',
  arm: '',
  armTilt: '',
  height: '',
  tilt: [],
  fromCentre: '',
  fromFront: '',
} as const;

/** "the downstage upright", by a rack's leg. */
function uprightNames(layout: Layout, rack: Rack): string[] {
  const legs = layout.racks[rack.id]?.legs ?? [];
  return tellApart(legs.map(({ x, y }) => [x, y] as const)).map((word) =>
    word === null ? 'upright' : typeof word === 'number' ? `upright ${word}` : `${placeWord(word)} upright`,
  );
}

/** "bar 2"; in a chain of spans "span 1, bar 2". */
function barNumber(rack: Rack, id: string): string {
  const found = barsOf(rack).find(({ bar }) => bar.id === id);
  if (!found) return 'bar';
  return `${rack.spans.length > 1 ? `span ${found.span + 1}, ` : ''}bar ${found.index + 1}`;
}

/** Where a curved bar's bow lies of the straight line between its ends: without it the same tube has two places. */
function bowWay(bar: BarLayout, frame: MarkFrame): string {
  const [a, middle, b] = [0, bar.length / 2, bar.length].map((s) => bar.pointAt(s));
  return WAY_WORDS[wayOfAngle(Math.atan2(middle.y - (a.y + b.y) / 2, middle.x - (a.x + b.x) / 2) - frame.angle)];
}

function rackRows(layout: Layout, rack: Rack, frame: MarkFrame, units: DisplayUnit): Setting[] {
  const length = (mm: number) => tapeLength(mm, units);
  const names = uprightNames(layout, rack);
  const legs = rack.legs.map(
    (leg, k): Setting => ({
      ...BLANK,
      piece: rack.name,
      held: [`${names[k]}, ${leg.foot ? `in a foot ${length(leg.foot.lengthMm)} long` : 'on its own end'}`],
      height: length(leg.lengthMm),
    }),
  );
  const bars = (layout.racks[rack.id]?.bars ?? []).map((bar): Setting => {
    const far = bar.s1 === null ? 'does not reach' : length(bar.length - bar.s1);
    const bend = rack.spans[bar.span]?.bars[bar.index]?.bend ?? null;
    const ends = bend && bend.straightEndsMm > 0 ? `, its ends straight for ${length(bend.straightEndsMm)}` : '';
    const bent = bend ? `, bent to a radius of ${length(bend.radiusMm)}${ends}` : '';
    return {
      ...BLANK,
      piece: rack.name,
      held: [
        `${barNumber(rack, bar.id)}: ${names[bar.span]} to ${names[bar.span + 1]}${bend ? `, bow ${bowWay(bar, frame)}` : ''}`,
        `${length(bar.length)} long${bent}; stands out ${length(bar.s0)} and ${far}`,
      ],
      height: length(bar.z),
    };
  });
  return [...legs, ...bars];
}

/** What holds a piece, and where on it: two lines. */
function heldWords(setup: Setup, layout: Layout, carrier: Carrier, units: DisplayUnit): string[] {
  const holder = setup.pieces[carrierPiece(carrier)];
  if (!holder) return ['what is not there any more'];
  const length = (mm: number) => tapeLength(mm, units);
  if (carrier.on === 'piece') return [`on ${holder.name}`];
  if (carrier.on === 'socket') {
    const pose = layout.mounts.find(({ piece, holds }) => piece === carrier.piece && holds === 'mount');
    return [`in ${socketWord(pose?.head?.platform ?? pose?.arm, carrier.socket)} at ${holder.name}`];
  }
  if (holder.kind !== 'rack') return [holder.name];
  const names = uprightNames(layout, holder);
  if (carrier.on === 'leg') {
    const k = holder.legs.findIndex(({ id }) => id === carrier.leg);
    return [`${holder.name}: ${names[k] ?? 'upright'}`, `${length(carrier.heightMm)} above the deck`];
  }
  const bar = layout.racks[holder.id]?.bars.find(({ id }) => id === carrier.bar);
  const first = `${holder.name}: ${barNumber(holder, carrier.bar)}`;
  if (!bar) return [first];
  const along = carrier.atMm - bar.s0;
  return [first, `${length(Math.abs(along))} ${along < 0 ? 'outside' : 'inside'} the ${names[bar.span]}`];
}

/** Nearer than this to the tube's axis a post stands on no side of it, mm. */
const ON_AXIS_MM = 1;

/** On which side of its tube an arm's post stands; nothing in a socket, where there is one place only. */
function postSide({ carrier, clampAt, post }: MountPose, frame: MarkFrame): string {
  const [dx, dy] = [post[0] - clampAt[0], post[1] - clampAt[1]];
  if ((carrier.on !== 'bar' && carrier.on !== 'leg') || Math.hypot(dx, dy) < ON_AXIS_MM) return '';
  return `${WAY_WORDS[wayOfAngle(Math.atan2(dy, dx) - frame.angle)]} of its tube`;
}

type ArmCells = Pick<Setting, 'by' | 'post' | 'postSide' | 'arm' | 'armTilt'>;

function armCells(pose: MountPose | undefined, frame: MarkFrame, units: DisplayUnit): ArmCells {
  if (!pose) return { by: '', post: '', postSide: '', arm: '', armTilt: '' };
  const by = pose.arm.name;
  if (!pose.reach.reached) return { by, post: 'out of', postSide: '', arm: 'reach', armTilt: '' };
  const { postMm, armMm, tiltDeg } = pose.reach.settings;
  const [post, arm] = [postMm, armMm].map((mm) => tapeLength(mm, units));
  return { by, post, postSide: postSide(pose, frame), arm, armTilt: formatAngle(tiltDeg) };
}

/** A tilt above 0 lowers the back edge, the one upstage at heading 0. */
function tiltWords({ place: { headingDeg, tiltDeg = 0 } }: Item, frame: MarkFrame): string[] {
  if (tiltDeg === 0) return [];
  const low = toRadians(headingDeg + (tiltDeg > 0 ? 90 : -90)) - frame.angle;
  return [formatAngle(Math.abs(tiltDeg)), `low ${WAY_WORDS[wayOfAngle(low)]}`];
}

function itemRows(setup: Setup, layout: Layout, item: Item, frame: MarkFrame, units: DisplayUnit): Setting[] {
  const { xMm, yMm, heightMm } = item.place;
  const [u, v] = inFrame(frame, [xMm, yMm]);
  const poseOf = (holds: MountPose['holds'], k = 0) =>
    layout.mounts.filter((pose) => pose.piece === item.id && pose.holds === holds)[k];
  const place = {
    height: heightMm === undefined ? '' : tapeLength(heightMm, units),
    tilt: tiltWords(item, frame),
    fromCentre: fromCentre(u, units),
    fromFront: fromFront(v, units),
  };
  const rows: Setting[] = [];
  if (item.mount) {
    const pose = poseOf('mount');
    const held = heldWords(setup, layout, item.mount.carrier, units);
    const lines = held.slice(1);
    if (pose?.head) {
      const { top, foot, platform, socket } = pose.head;
      lines.push(`head ${tapeLength(top[2] - foot[2], units)} up, ${socketWord(platform, socket)}`);
    }
    const both = [held[0], lines.join('; ')].filter((line) => line !== '');
    rows.push({ piece: item.name, held: both, ...armCells(pose, frame, units), ...place });
  } else if (heightMm !== undefined) rows.push({ ...BLANK, piece: item.name, held: ['on the floor'], ...place });
  (item.ties ?? []).forEach((tie, k) => {
    const pose = poseOf('tie', k);
    const held = heldWords(setup, layout, tie.carrier, units);
    const height = tapeLength(tie.heightMm, units);
    rows.push({ ...BLANK, piece: `${item.name}: tie`, held, ...armCells(pose, frame, units), height });
  });
  return rows;
}

/** All settings, racks first; groups without rows are left out. */
export function settingsOf(plan: Plan, setup: Setup, layout: Layout, frame: MarkFrame): SettingGroup[] {
  const pieces = setup.order.flatMap((id) => (Object.hasOwn(setup.pieces, id) ? [setup.pieces[id]] : []));
  const racks = pieces.flatMap((piece) => (piece.kind === 'rack' ? rackRows(layout, piece, frame, plan.units) : []));
  const held = pieces.flatMap((piece) =>
    piece.kind === 'item' ? itemRows(setup, layout, piece, frame, plan.units) : [],
  );
  return [
    {
      heading:
        'Above the floor: racks. Lengths of uprights, heights of bars to their centre line, overhangs beyond the two uprights',
      rows: racks,
    },
    {
      heading:
        'Above the floor: pieces. Height of the playing surface, spot under its middle; an arm takes a drum half-way down its shell',
      rows: held,
    },
  ].filter(({ rows }) => rows.length > 0);
}
