/** What is named on a drawing, and where its name may stand: in the piece where it fits, else beside it with a leader. */

import type { Finding } from '../checks/finding.ts';
import { gearOf } from '../gear/catalogue.ts';
import { hasGlyph, isPlaceable, NAME_ORDER, placedKind } from '../gear/kinds.ts';
import { STAGE_USES } from '../gear/uses.ts';
import type { Layout } from '../layout/layout.ts';
import type { Item, Plan, Setup } from '../plan/schema.ts';
import { formatNumber, toRadians } from '../units.ts';
import { TEXT_MM, type Tint } from './displayList.ts';
import { type LabelRequest, LEADER_IN_MM, numberRequest } from './labels.ts';
import { isPlacedMicrophone } from './pieces.ts';
import { glyphSize } from './stageItems.ts';

/** Who chooses a place first. */
const rankOf = (name: (typeof NAME_ORDER)[number]): number => NAME_ORDER.indexOf(name);

/** Where else than in its middle a rack's bar may be named, in parts of its length. */
const ALONG_A_BAR = [0.35, 0.65, 0.2, 0.8, 0.08, 0.92] as const;

type Place = Pick<LabelRequest, 'x' | 'y' | 'reachMm' | 'inside'> & { readonly rank: number };

/** A turned box's upright inner box: the half width and half depth that surely lie in it. */
function innerHalf(width: number, depth: number, headingRad: number): { halfW: number; halfH: number } {
  const c = Math.abs(Math.cos(headingRad));
  const s = Math.abs(Math.sin(headingRad));
  // Exact at quarter turns; between them the least of both, shrunk by the turn.
  const shrink = 1 / (c + s);
  return c >= s
    ? { halfW: (width / 2) * shrink, halfH: (depth / 2) * shrink }
    : { halfW: (depth / 2) * shrink, halfH: (width / 2) * shrink };
}

function itemPlace(plan: Plan, item: Item, scale: number | undefined): Place | null {
  const gear = gearOf(plan.gear, item.gear);
  if (!gear || !isPlaceable(gear)) return null;
  const { xMm: x, yMm: y, headingDeg, tiltDeg } = item.place;
  const heading = toRadians(headingDeg);
  const place = (reachMm: number, inside: Place['inside'] = null): Place => ({
    x,
    y,
    rank: rankOf(gear.kind),
    reachMm,
    inside,
  });
  const round = (radius: number): Place => {
    const half = radius * Math.abs(Math.cos(toRadians(tiltDeg ?? 0)));
    return place(half, { halfW: half, halfH: half, round: true });
  };
  if (!hasGlyph(gear)) return place(placedKind(gear).reachMm(gear));
  switch (gear.kind) {
    case 'drum':
    case 'cymbal':
      return round(gear.diameterMm / 2 - 8);
    case 'bassDrum': {
      const inner = innerHalf(gear.diameterMm * 0.94, gear.depthMm * 0.72, heading);
      return place(Math.min(gear.diameterMm, gear.depthMm) / 2, { ...inner, round: false });
    }
    case 'throne':
      return round(Math.min(gear.widthMm, gear.depthMm) / 2 - 8);
    case 'pedal':
      return place(gear.boardWidthMm / 2);
    case 'stageItem': {
      const { w, d } = glyphSize({ ...gear, scale });
      const inner = innerHalf(w * 0.94, d * 0.9, heading);
      // A name stands in what has room for it; the others' glyphs have lettering of their own, which leaders keep off.
      const isPlain = STAGE_USES[gear.use].source !== null;
      const beyondMm = isPlain ? 0 : LEADER_IN_MM * (scale ?? 0);
      return place(Math.min(w, d) / 2 + beyondMm, isPlain ? { ...inner, round: false } : null);
    }
    case 'stand':
      return place(gear.tubeDiameterMm / 2);
  }
}

/** What a power drop gives and what will hang on it: "230 V, 2000 W"; a number and its unit stay in one line. */
function powerText({ volts, loadW }: NonNullable<Item['power']>): string {
  return `${formatNumber(volts, 0)}\u00a0V, ${loadW === null ? 'load not given' : `${formatNumber(loadW, 0)}\u00a0W`}`;
}

export interface Naming {
  /** Model mm in one mm of paper, for glyphs drawn larger than their things. */
  readonly scale?: number;
  /** Numbers of channels, by the id of what takes them. A microphone on the kit is named by its own alone. */
  readonly channels?: ReadonlyMap<string, string> | undefined;
  /** Where microphones in place have their heads: their names point there. */
  readonly heads?: ReadonlyMap<string, Pick<Place, 'x' | 'y' | 'reachMm'>>;
}

function itemText(plan: Plan, setup: Setup, item: Item, name: string, { channels }: Naming): string {
  const channel = channels?.get(item.id);
  if (channel !== undefined) return isPlacedMicrophone(plan, setup, item) ? `ch ${channel}` : `${name}, ch ${channel}`;
  return item.power ? `${name}: ${powerText(item.power)}` : name;
}

/** Names of the pieces `ids`; `tints` what the pieces are filled with. A stand that holds something is named by what it holds. */
export function nameRequests(
  plan: Plan,
  setup: Setup,
  layout: Layout,
  ids: readonly string[],
  tints: ReadonlyMap<string, Tint>,
  naming: Naming = {},
): LabelRequest[] {
  const holds = new Set<string>();
  for (const piece of Object.values(setup.pieces))
    if (piece.kind === 'item' && piece.mount?.carrier.on === 'piece') holds.add(piece.mount.carrier.piece);
  const requests: (LabelRequest & { rank: number })[] = [];
  for (const id of ids) {
    const piece = setup.pieces[id];
    if (!piece) continue;
    const common = { id, sizeMm: TEXT_MM.small, bold: false, form: 'name', ink: 'ink', pieceId: id } as const;
    if (piece.kind === 'rack') {
      const bar = layout.racks[id]?.bars[0];
      if (!bar || piece.name === '') continue;
      const { x, y } = bar.pointAt(bar.length / 2);
      const elsewhere = ALONG_A_BAR.map((part) => {
        const at = bar.pointAt(bar.length * part);
        return [at.x, at.y] as const;
      });
      const place = { x, y, elsewhere, reachMm: bar.radiusMm, inside: null, rank: rankOf('rack') };
      requests.push({ ...common, text: piece.name, backing: null, ...place });
      continue;
    }
    const gear = gearOf(plan.gear, piece.gear);
    if (gear?.kind === 'stand' && holds.has(id)) continue;
    const own = itemPlace(plan, piece, naming.scale);
    const place = own && { ...own, ...naming.heads?.get(id) };
    const text = itemText(plan, setup, piece, piece.name || gear?.name || '', naming);
    if (place && text !== '') requests.push({ ...common, text, backing: tints.get(id) ?? null, ...place });
  }
  // Equal ranks keep the setup's own order.
  return requests.sort((a, b) => a.rank - b.rank);
}

type Flagged = Finding & { readonly at: readonly [number, number] };

/** Findings that a drawing flags, in the order of their numbers: all that are not clear and speak of a place. */
export const flaggedFindings = (findings: readonly Finding[]): Flagged[] =>
  findings.filter((finding): finding is Flagged => finding.state !== 'clear' && finding.at !== null);

/** Numbered flags, 1 for the first. */
export function flagRequests(findings: readonly Finding[]): LabelRequest[] {
  return flaggedFindings(findings).map(({ state: ink, at: [x, y], pieces: [pieceId = null] }, k) =>
    numberRequest({ id: `finding ${k + 1}`, text: String(k + 1), form: 'flag', ink, x, y, pieceId }),
  );
}
