/**
 * The kit, or what is selected with all that it is joined to, seen level from the audience or from the side: uprights, bars,
 * clamps, arms, drums and cymbals at their heights.
 *
 * Frame:  u to the right as it is seen, z up; mm, 0 is the deck. From the audience u is the plan's x, so that the elevation
 *         stands true beneath the plan. From stage left (the page's right) u is the plan's y: the audience is at the left;
 *         from stage right it is at the right.
 * Exact:  straight bars, uprights, drums and cymbals as cylinders and discs seen from far away. A tripod's legs, a pedal and an
 *         arm are as plain as their bodies. A clamp is a box about its tube (its shape is nobody's published number).
 * Order:  what is nearer to the eye is drawn later and covers.
 */
import { gearOf } from '../gear/catalogue.ts';
import { hasGlyph, heightMmIn, isBesideKit, isPlaceable, ownHeightMm } from '../gear/kinds.ts';
import type { Gear } from '../gear/schema.ts';
import type { Core } from '../geometry/shapes.ts';
import { supportOfCore } from '../geometry/support.ts';
import { armPath, tailEnd } from '../layout/armBodies.ts';
import { assemblyRoots } from '../layout/assemblies.ts';
import { type Body, isArmBody } from '../layout/body.ts';
import type { Layout } from '../layout/layout.ts';
import { armRadius, HEAD_RADIUS_MM } from '../layout/platformHead.ts';
import type { RackJoint } from '../layout/rackJoints.ts';
import type { MountPose, Point3 } from '../layout/reachMounts.ts';
import { barsOf } from '../plan/carriers.ts';
import { headNormal } from '../plan/items.ts';
import type { Item, Plan, Rack, Setup } from '../plan/schema.ts';
import { type DisplayUnit, formatLength, toRadians } from '../units.ts';
import { dimensionMarks, numbersOnTop } from './dimensions.ts';
import {
  boxMark,
  boxOfMarks,
  type DisplayList,
  type DrawnBox,
  ellipseMark,
  lineMark,
  type Mark,
  polygonMark,
  type Style,
  style,
  THIN,
  type Tint,
  WIDE,
} from './displayList.ts';
import type { MeasureText } from './textWidth.ts';
import { LAYER_OF_BODY } from './tubes.ts';

/** 'side': from stage left, the page's right; 'otherSide': from stage right. */
export type ElevationSide = 'audience' | 'side' | 'otherSide';

export interface ElevationOptions {
  readonly side: ElevationSide;
  /** Pieces whose assemblies are shown, and whose heights are dimensioned. None: the whole kit, without dimensions. */
  readonly selected: readonly string[];
  readonly units: DisplayUnit;
  /** Model mm in one mm of paper: 20 at 1:20. */
  readonly scale: number;
  readonly measure: MeasureText;
}

/** Something whose height can be set: where it may be taken hold of, and the height it has, mm. */
export interface HeightGrip {
  readonly piece: string;
  /** Of a rack. */
  readonly bar: string | null;
  readonly label: string;
  readonly heightMm: number;
  readonly box: DrawnBox;
}

export interface Elevation {
  /** Nearest last. Heights, the deck's line and dimensions come after the pieces. */
  readonly list: DisplayList;
  /** Nearest last. */
  readonly grips: readonly HeightGrip[];
  readonly pieces: readonly string[];
}

/** How much a clamp stands out round its tube, mm. Common practice, no source. */
const CLAMP_WALL_MM = 8;
/** How high a hoop is, mm. Common practice, no source. */
const HOOP_HIGH_MM = 24;
/** Deck drawn beyond what stands on it where there is no riser. */
const DECK_BEYOND_MM = 150;

/** The way the eye looks at a point: across, up, and how near it is (more is nearer). */
export interface Eye {
  readonly u: readonly [number, number];
  readonly near: readonly [number, number];
}

export const EYES: Readonly<Record<ElevationSide, Eye>> = {
  audience: { u: [1, 0], near: [0, -1] },
  side: { u: [0, 1], near: [1, 0] },
  otherSide: { u: [0, -1], near: [-1, 0] },
};

const dot = ([a, b]: readonly [number, number], x: number, y: number) => a * x + b * y;

/** From, to across the view; how near the nearest of it is. */
function spread(core: Core, radius: number, { u, near }: Eye): { from: number; to: number; nearest: number } {
  return {
    from: -supportOfCore(core, -u[0], -u[1]) - radius,
    to: supportOfCore(core, u[0], u[1]) + radius,
    nearest: supportOfCore(core, near[0], near[1]) + radius,
  };
}

/** A round thing in space: the centre of one end, the unit vector to that end from the other, length and radius. */
export interface Cylinder {
  readonly end: Point3;
  readonly axis: Point3;
  readonly length: number;
  readonly radius: number;
}

/** The ellipse that a round disc is seen as. Exact: half axes r and r |n . view|, the long one across the normal as it is seen. */
export function seenDisc(
  centre: Point3,
  normal: Point3,
  radius: number,
  eye: Eye,
): { cx: number; cy: number; rx: number; ry: number; rotation: number } {
  const across = dot(eye.u, normal[0], normal[1]);
  const towards = dot(eye.near, normal[0], normal[1]);
  return {
    cx: dot(eye.u, centre[0], centre[1]),
    cy: centre[2],
    rx: radius,
    ry: radius * Math.abs(towards),
    // The normal as it is seen points along (across, z); the ellipse's long axis lies square to it.
    rotation: Math.hypot(across, normal[2]) < 1e-12 ? 0 : Math.atan2(normal[2], across) - Math.PI / 2,
  };
}

const back = ({ end, axis, length }: Cylinder): Point3 => [
  end[0] - length * axis[0],
  end[1] - length * axis[1],
  end[2] - length * axis[2],
];

/** Far end, the four corners of its straight sides, near end: drawn one over the other they are the cylinder. */
export function cylinderMarks(cylinder: Cylinder, eye: Eye, base: Style): Mark[] {
  const { end, axis, radius } = cylinder;
  const other = back(cylinder);
  const first = seenDisc(end, axis, radius, eye);
  const second = seenDisc(other, axis, radius, eye);
  const endIsNear = dot(eye.near, axis[0], axis[1]) >= 0;
  const [near, far] = endIsNear ? [first, second] : [second, first];
  const dx = radius * Math.cos(first.rotation);
  const dy = radius * Math.sin(first.rotation);
  const disc = (one: typeof near) => ellipseMark(base, one.cx, one.cy, one.rx, one.ry, one.rotation);
  const corners = [far.cx - dx, far.cy - dy, near.cx - dx, near.cy - dy, near.cx + dx, near.cy + dy, far.cx + dx];
  return [
    disc(far),
    polygonMark({ ...base, line: null }, [...corners, far.cy + dy]),
    lineMark({ ...base, tint: null }, ...corners.slice(0, 4)),
    lineMark({ ...base, tint: null }, ...corners.slice(4), far.cy + dy),
    disc(near),
  ];
}

interface Drawn {
  readonly marks: readonly Mark[];
  /** How near the eye it is. */
  readonly nearest: number;
  readonly grip: HeightGrip | null;
}

const gripOf = (item: Item, gear: Gear, heightMm: number) => ({
  piece: item.id,
  bar: null,
  label: item.name || gear.name,
  heightMm,
});

class Drafter {
  readonly drawn: Drawn[] = [];
  constructor(
    private readonly plan: Plan,
    private readonly layout: Layout,
    private readonly eye: Eye,
  ) {}

  private style(kind: Body['kind'], piece: string, changes: Partial<Style> = {}): Style {
    return style(LAYER_OF_BODY[kind], { line: THIN, tint: 'high', pieceId: piece, part: piece, ...changes });
  }

  private add(marks: readonly Mark[], nearest: number, grip: Omit<HeightGrip, 'box'> | null = null): void {
    this.drawn.push({ marks, nearest, grip: grip && { ...grip, box: boxOfMarks(marks) } });
  }

  private at = ([x, y, z]: Point3): [number, number] => [dot(this.eye.u, x, y), z];
  private near = ([x, y]: Point3): number => dot(this.eye.near, x, y);

  /** A rod between two points, as wide as its tube. */
  private rod(from: Point3, to: Point3, radius: number, base: Style): void {
    const [x0, y0] = this.at(from);
    const [x1, y1] = this.at(to);
    const length = Math.hypot(x1 - x0, y1 - y0);
    if (length < 1e-9) {
      this.add([ellipseMark(base, x0, y0, radius, radius, 0)], Math.max(this.near(from), this.near(to)));
      return;
    }
    const dx = (-(y1 - y0) * radius) / length;
    const dy = ((x1 - x0) * radius) / length;
    const corners = [x0 + dx, y0 + dy, x1 + dx, y1 + dy, x1 - dx, y1 - dy, x0 - dx, y0 - dy];
    this.add([polygonMark(base, corners)], Math.max(this.near(from), this.near(to)));
  }

  private boxed(body: Body, changes: Partial<Style> = {}): void {
    const { from, to, nearest } = spread(body.shape.core, body.shape.radius, this.eye);
    this.add([boxMark(this.style(body.kind, body.piece, changes), from, body.z0, to, body.z1)], nearest);
  }

  /** Legs of stands and spurs lean: from the end by the tube, high, to the tip on the floor. */
  private leaning(body: Body): void {
    const { core, radius } = body.shape;
    if (core.kind !== 'segment') this.boxed(body);
    else this.rod([core.x0, core.y0, body.z1], [core.x1, core.y1, body.z0], radius, this.style(body.kind, body.piece));
  }

  private bodies(id: string, choose: (body: Body) => boolean = () => true): void {
    for (const body of this.layout.bodies) {
      // Arms are drawn from their poses, which say where they bend.
      if (body.piece !== id || isArmBody(body) || !choose(body)) continue;
      if (/^leg\d+$|-spur$/.test(body.part)) this.leaning(body);
      else this.boxed(body);
    }
  }

  rack(rack: Rack): void {
    const layout = this.layout.racks[rack.id];
    if (layout === undefined) return;
    this.bodies(rack.id, ({ kind }) => kind !== 'bar');
    for (const bar of layout.bars) {
      const all = bar.shapes.map(({ core }) => spread(core, 0, this.eye));
      const from = Math.min(...all.map((one) => one.from));
      const to = Math.max(...all.map((one) => one.to));
      const nearest = Math.max(...all.map((one) => one.nearest));
      const base = this.style('bar', rack.id, { line: WIDE, title: `${rack.name}, bar` });
      const { radiusMm: r, z } = bar;
      const marks: Mark[] = [boxMark(base, from, z - r, to, z + r)];
      // The cut ends: round where they look at the eye, lines where they look aside.
      for (const s of [0, bar.length]) {
        const { x, y, headingRad } = bar.pointAt(s);
        const facing = Math.abs(dot(this.eye.near, Math.cos(headingRad), Math.sin(headingRad)));
        marks.push(ellipseMark(base, dot(this.eye.u, x, y), z, r * facing, r, 0));
      }
      const number = barsOf(rack).findIndex((one) => one.bar.id === bar.id) + 1;
      this.add(marks, nearest + r, { piece: rack.id, bar: bar.id, label: `${rack.name}, bar ${number}`, heightMm: z });
    }
    for (const joint of layout.joints) this.joint(rack, joint);
  }

  private joint(rack: Rack, joint: RackJoint): void {
    const leg = this.layout.racks[rack.id].legs.find(({ id }) => id === joint.leg);
    if (leg === undefined) return;
    const u = dot(this.eye.u, leg.x, leg.y);
    const half = joint.widthMm / 2;
    const wide = leg.radiusMm + CLAMP_WALL_MM;
    const base = this.style('bar', rack.id, { layer: 'mounts', tint: 'low' });
    this.add(
      [boxMark(base, u - wide, Math.max(0, joint.heightMm - half), u + wide, joint.heightMm + half)],
      dot(this.eye.near, leg.x, leg.y) + wide,
    );
  }

  /** Its clamp, its post and its arm, as it must be set to hold the piece. */
  mount(pose: MountPose): void {
    const { piece, arm, clamp, carrier, clampAt, post, elbow, head } = pose;
    const base = this.style('arm', piece, { tint: 'middle', title: arm.name });
    const radius = armRadius(arm);
    if (clamp !== null && (carrier.on === 'bar' || carrier.on === 'leg')) {
      const [u, z] = this.at(clampAt);
      const grip = (clamp.tubeMm[0] + clamp.tubeMm[1]) / 4 + CLAMP_WALL_MM;
      const half = clamp.widthMm / 2;
      let across = grip;
      let up = half;
      if (carrier.on === 'bar') {
        const bar = this.layout.racks[carrier.rack]?.bars.find(({ id }) => id === carrier.bar);
        const heading = bar?.pointAt(carrier.atMm).headingRad ?? 0;
        const along = Math.abs(dot(this.eye.u, Math.cos(heading), Math.sin(heading)));
        const facing = Math.abs(dot(this.eye.near, Math.cos(heading), Math.sin(heading)));
        across = half * along + grip * facing;
        up = grip;
      }
      const marks = [boxMark({ ...base, tint: 'low', title: clamp.name }, u - across, z - up, u + across, z + up)];
      this.add(marks, this.near(clampAt) + grip);
    }
    const foot = head?.foot ?? post;
    if (clamp !== null && clampAt !== foot) this.rod(clampAt, foot, radius, base);
    if (head) {
      const platform = { ...base, title: head.platform.name };
      if (head.top[2] !== foot[2]) this.rod(foot, head.top, HEAD_RADIUS_MM, platform);
      for (const socket of head.sockets) this.rod(head.top, socket, HEAD_RADIUS_MM, platform);
    }
    if (elbow[2] !== post[2]) this.rod(post, elbow, radius, base);
    const path = armPath(pose);
    for (let k = 1; k < path.length; k++) this.rod(path[k - 1], path[k], radius, base);
    const tail = tailEnd(pose);
    if (tail) this.rod(elbow, tail, radius, base);
  }

  item(item: Item): void {
    const gear = gearOf(this.plan.gear, item.gear);
    if (gear === undefined || !isPlaceable(gear) || isBesideKit(gear)) return;
    const { xMm, yMm } = item.place;
    if (!hasGlyph(gear)) {
      this.fromBodies(item, gear);
      return;
    }
    const height = heightMmIn(item.place, gear) ?? 0;
    const at: Point3 = [xMm, yMm, height];
    const styled = (kind: Body['kind'], tint: Tint) =>
      this.style(kind, item.id, { line: WIDE, tint, title: item.name || gear.name });
    switch (gear.kind) {
      case 'drum':
        this.bodies(item.id, ({ kind }) => kind === 'spur');
        this.add(
          this.drum(at, headNormal(item), gear, styled('tom', 'middle')),
          this.near(at),
          gripOf(item, gear, height),
        );
        return;
      case 'bassDrum': {
        const heading = toRadians(item.place.headingDeg);
        const axis: Point3 = [-Math.sin(heading), Math.cos(heading), 0];
        const half = gear.depthMm / 2;
        const end: Point3 = [xMm + half * axis[0], yMm + half * axis[1], gear.diameterMm / 2 + gear.hoopMm];
        this.bodies(item.id, ({ kind }) => kind === 'spur');
        this.add(this.drum(end, axis, gear, styled('bassDrum', 'ground')), this.near(at));
        return;
      }
      case 'cymbal': {
        const base = styled('cymbal', 'overhead');
        const marks = this.cymbal(at, headNormal(item), gear.diameterMm / 2, gear.profileMm, base);
        this.add(marks, this.near(at), gripOf(item, gear, height));
        return;
      }
      case 'pedal':
      case 'throne':
      case 'stand':
      case 'stageItem':
        this.fromBodies(item, gear);
    }
  }

  /** As its bodies are. Where a plan may set its height, the highest of them is what is taken hold of, not a leg far from it. */
  private fromBodies(item: Item, gear: Gear): void {
    const before = this.drawn.length;
    this.bodies(item.id);
    if (ownHeightMm(gear) === null) return;
    const own = this.layout.bodies.filter(({ piece, kind }) => piece === item.id && kind !== 'arm' && kind !== 'link');
    const top = own.reduce((most, { z1 }) => Math.max(most, z1), 0);
    const at = this.drawn.findIndex(({ marks }, k) => k >= before && Math.abs(boxOfMarks(marks).maxY - top) < 1e-9);
    const found = this.drawn[at];
    if (found) this.drawn[at] = { ...found, grip: { ...gripOf(item, gear, top), box: boxOfMarks(found.marks) } };
  }

  /** A shell between its two hoops. `end`: the centre of the end that `axis` points to. */
  private drum(
    end: Point3,
    axis: Point3,
    { diameterMm, depthMm, hoopMm }: { readonly diameterMm: number; readonly depthMm: number; readonly hoopMm: number },
    base: Style,
  ): Mark[] {
    const radius = diameterMm / 2;
    const hoop = Math.min(HOOP_HIGH_MM, depthMm / 3);
    const whole = { end, axis, length: depthMm, radius };
    const low = back({ ...whole, length: depthMm - hoop });
    const hoops = [end, low].map((from) =>
      cylinderMarks({ end: from, axis, length: hoop, radius: radius + hoopMm }, this.eye, base),
    );
    const shell = cylinderMarks(whole, this.eye, { ...base, line: THIN });
    const endIsNear = dot(this.eye.near, axis[0], axis[1]) >= 0;
    return endIsNear ? [...hoops[1], ...shell, ...hoops[0]] : [...hoops[0], ...shell, ...hoops[1]];
  }

  private cymbal(centre: Point3, normal: Point3, radius: number, profile: number, base: Style): Mark[] {
    const edge = seenDisc(centre, normal, radius, this.eye);
    const c = Math.cos(edge.rotation);
    const s = Math.sin(edge.rotation);
    // The bow and the bell, in the frame of the edge as it is seen: along it, and along the normal's seen length.
    const squeeze = Math.hypot(dot(this.eye.u, normal[0], normal[1]), normal[2]);
    const bow: [number, number][] = [
      [-1, 0],
      [-0.22, 0.5],
      [-0.16, 1],
      [0.16, 1],
      [0.22, 0.5],
      [1, 0],
    ];
    const corners = bow.flatMap(([along, up]) => {
      const a = along * radius;
      const b = up * profile * squeeze;
      return [edge.cx + a * c - b * s, edge.cy + a * s + b * c];
    });
    return [ellipseMark(base, edge.cx, edge.cy, edge.rx, edge.ry, edge.rotation), polygonMark(base, corners)];
  }
}

/** Pieces in the assemblies of what is selected; all of the kit where nothing is. */
function shownPieces(plan: Plan, setup: Setup, selected: readonly string[]): string[] {
  const isKit = (id: string) => {
    const piece = setup.pieces[id];
    return piece !== undefined && (piece.kind === 'rack' || !isBesideKit(gearOf(plan.gear, piece.gear)));
  };
  const kit = setup.order.filter(isKit);
  const roots = assemblyRoots(setup);
  const wanted = new Set(selected.filter((id) => kit.includes(id)).map((id) => roots.get(id)));
  return wanted.size === 0 ? kit : kit.filter((id) => wanted.has(roots.get(id)));
}

/** Extent across the view of the riser, or of what stands on the deck. */
function deckMarks(layout: Layout, eye: Eye, box: { minX: number; maxX: number }): Mark[] {
  const line = style('deck', { line: WIDE, title: 'Deck' });
  if (!layout.deck) return [lineMark(line, box.minX - DECK_BEYOND_MM, 0, box.maxX + DECK_BEYOND_MM, 0)];
  const { modules, heightMm } = layout.deck;
  const base = style('deck', { line: THIN, tint: 'deck', title: layout.deck.name });
  const spans = modules.map((points) => spread({ kind: 'polygon', points: [...points] }, 0, eye));
  return spans.flatMap(({ from, to }) => [boxMark(base, from, -heightMm, to, 0), lineMark(line, from, 0, to, 0)]);
}

/** Heights above the deck of what is selected, beside what is shown: the lowest next to it. */
function heightDimensions(
  grips: readonly HeightGrip[],
  box: { minX: number; maxX: number },
  { selected, units, scale, measure }: ElevationOptions,
): Mark[] {
  const rows = new Map<string, HeightGrip>();
  for (const grip of grips) {
    const text = formatLength(grip.heightMm, units);
    if (selected.includes(grip.piece) && !rows.has(text)) rows.set(text, grip);
  }
  return [...rows]
    .sort(([, a], [, b]) => a.heightMm - b.heightMm)
    .slice(0, MOST_DIMENSIONS)
    .flatMap(([text, grip], row) => {
      const middle = (grip.box.minX + grip.box.maxX) / 2;
      const u = box.maxX + (ROW_AT_MM + row * ROW_MM) * scale;
      return dimensionMarks({
        from: [box.maxX, 0],
        to: [Math.max(middle, grip.box.maxX), grip.heightMm],
        alongRad: Math.PI / 2,
        lineAt: -u,
        text,
        scale,
        measure,
        title: grip.label,
      });
    });
}

/** Rows of height dimensions, mm on paper. */
const ROW_AT_MM = 7;
const ROW_MM = 6;
const MOST_DIMENSIONS = 6;

/** Inputs: a setup that the plan holds, and its layout. */
export function elevationOf(plan: Plan, setupId: string, layout: Layout, options: ElevationOptions): Elevation {
  const setup = plan.setups[setupId];
  const eye = EYES[options.side];
  const pieces = shownPieces(plan, setup, options.selected);
  const drafter = new Drafter(plan, layout, eye);
  for (const id of pieces) {
    const piece = setup.pieces[id];
    if (piece.kind === 'rack') drafter.rack(piece);
    else drafter.item(piece);
  }
  const shown = new Set(pieces);
  for (const pose of layout.mounts) if (shown.has(pose.piece)) drafter.mount(pose);
  const drawn = drafter.drawn.sort((a, b) => a.nearest - b.nearest);
  const kit = drawn.flatMap(({ marks }) => marks);
  const grips = drawn.flatMap(({ grip }) => (grip ? [grip] : []));
  const box = boxOfMarks(kit);
  const heights = numbersOnTop(heightDimensions(grips, box, options), options.scale, options.measure);
  const marks = [...deckMarks(layout, eye, box), ...kit, ...heights];
  return { list: { marks, box: boxOfMarks(marks) }, grips, pieces };
}

/** The grip under a point of the view, the nearest to the eye first; `slack` mm round it. Selected pieces go first. */
export function gripAt(
  { grips }: Elevation,
  u: number,
  z: number,
  slack: number,
  selected: readonly string[] = [],
): HeightGrip | null {
  const under = grips.filter(
    ({ box }) => u >= box.minX - slack && u <= box.maxX + slack && z >= box.minY - slack && z <= box.maxY + slack,
  );
  return under.findLast(({ piece }) => selected.includes(piece)) ?? under.at(-1) ?? null;
}
