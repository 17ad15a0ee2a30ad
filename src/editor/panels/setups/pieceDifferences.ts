/** What differs between two setups, piece by piece: the same id is the same piece in both. */
import type { Mount, Piece, Rack, Setup } from '../../../plan/schema.ts';

export interface PieceDifference {
  readonly id: string;
  readonly name: string;
  readonly what: 'added' | 'removed' | 'moved' | 'changed';
  /** How far the anchor moved, mm; 0 where it only turned, or is not in both. */
  readonly movedMm: number;
  readonly turnedDeg: number;
  /** What else is different, a few words each. */
  readonly changes: readonly string[];
}

/** Tapes read no finer than this. mm and degrees. */
const SAME_MM = 0.5;
const SAME_DEG = 0.05;

/** As text: key order follows the file, which is the same for a piece that was copied. */
const differs = (a: unknown, b: unknown) => JSON.stringify(a ?? null) !== JSON.stringify(b ?? null);

/** What is different besides where it stands; racks and items have fields of their own. */
function changesOf(before: Piece, after: Piece): string[] {
  const changes: string[] = [];
  const say = (words: string, a: unknown, b: unknown) => {
    if (differs(a, b)) changes.push(words);
  };
  if (before.kind === 'rack' && after.kind === 'rack') {
    const shapes = (rack: Rack) => rack.spans.map(({ bars }) => bars.map(({ bend }) => bend === null));
    const bent = differs(shapes(before), shapes(after));
    if (bent) changes.push(shapes(after).flat().includes(true) ? 'straightened' : 'bent');
    else say('bars changed', before.spans, after.spans);
    say('legs changed', before.legs, after.legs);
  } else if (before.kind === 'item' && after.kind === 'item') {
    say('other gear', before.gear, after.gear);
    say('height changed', before.place.heightMm, after.place.heightMm);
    say('tilt changed', before.place.tiltDeg ?? 0, after.place.tiltDeg ?? 0);
    if (differs(before.mount, after.mount)) {
      const along = before.mount !== null && after.mount !== null && isAlong(before.mount, after.mount);
      changes.push(along ? 'clamped elsewhere on the same tube' : 'held differently');
    }
    say('tied differently', before.ties, after.ties);
    say('second pedal moved', before.second, after.second);
    say('legs turned', before.legsTurnDeg ?? 0, after.legsTurnDeg ?? 0);
  } else changes.push('another kind of piece');
  say('renamed', before.name, after.name);
  return changes;
}

/** The same mount but for its place along its bar or up its leg. */
function isAlong({ carrier: a, ...restA }: Mount, { carrier: b, ...restB }: Mount): boolean {
  const bare = (carrier: Mount['carrier']) => ({ ...carrier, atMm: 0, heightMm: 0 });
  return (a.on === 'bar' || a.on === 'leg') && !differs(restA, restB) && !differs(bare(a), bare(b));
}

export function pieceDifferences(from: Setup, to: Setup): PieceDifference[] {
  const differences: PieceDifference[] = [];
  const blank = { movedMm: 0, turnedDeg: 0, changes: [] };
  for (const id of from.order) {
    if (!Object.hasOwn(to.pieces, id)) differences.push({ id, name: from.pieces[id].name, what: 'removed', ...blank });
  }
  for (const id of to.order) {
    const after = to.pieces[id];
    const before = Object.hasOwn(from.pieces, id) ? from.pieces[id] : undefined;
    if (before === undefined) {
      differences.push({ id, name: after.name, what: 'added', ...blank });
      continue;
    }
    if (before === after) continue;
    const movedMm = Math.hypot(after.place.xMm - before.place.xMm, after.place.yMm - before.place.yMm);
    const turn = ((((after.place.headingDeg - before.place.headingDeg + 180) % 360) + 360) % 360) - 180;
    const changes = changesOf(before, after);
    const changed = changes.length > 0;
    const moved = movedMm >= SAME_MM || Math.abs(turn) >= SAME_DEG;
    if (changed || moved)
      differences.push({
        id,
        name: after.name,
        what: changed ? 'changed' : 'moved',
        movedMm: movedMm >= SAME_MM ? movedMm : 0,
        turnedDeg: Math.abs(turn) >= SAME_DEG ? turn : 0,
        changes,
      });
  }
  return differences;
}
