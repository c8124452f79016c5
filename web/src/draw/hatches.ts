// Which hatch and which tint a window wears, and how hatches are drawn. Only metal lies at 45 degrees.

export type Hatch =
  | 'piston' | 'cylinder' | 'limit' | 'metal_to_go'
  | 'upright' | 'dots' | 'crosses' | 'squares' | 'rings' | 'level' | 'waves';

export type Tint = 'exhaust' | 'transfer' | 'intake' | 'ink';

/** Hatch of a kind of window; transfers by their rank from the exhaust round. */
export function hatchOf(kind: string, rank = 0): Hatch {
  switch (kind) {
    case 'exhaust':
      return 'upright';
    case 'intake':
      return 'level';
    case 'boost':
      return 'rings';
    case 'air':
      return 'waves';
    default:
      return rank <= 0 ? 'dots' : rank === 1 ? 'crosses' : 'squares';
  }
}

/** Tint of a kind of window; all transfers share one. */
export function tintOf(kind: string): Tint {
  if (kind === 'exhaust') return 'exhaust';
  if (kind === 'intake' || kind === 'air') return 'intake';
  return kind === 'transfer' || kind === 'boost' ? 'transfer' : 'ink';
}

/** Name of a hatch in one drawing; two drawings on a page do not share theirs. */
export function hatchId(drawing: string, hatch: Hatch, tint: Tint | 'metal' | 'blue' = 'metal'): string {
  return `${drawing}-${hatch}-${tint}`;
}

export interface Tile {
  width: number;
  height: number;
  /** strokes of a tile */
  lines: string;
  /** filled marks of a tile */
  fills: string;
}

const circle = (x: number, y: number, r: number) =>
  `M${x - r} ${y}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0`;
const cross = (x: number, y: number, a: number) => `M${x - a} ${y}h${2 * a}M${x} ${y - a}v${2 * a}`;
const square = (x: number, y: number, a: number) => `M${x - a} ${y - a}h${2 * a}v${2 * a}h${-2 * a}z`;

/** 45 degrees, rising to the right (metal as seen) or falling (cylinder), in a tile that meets itself. */
function slanted(pitch: number, rising: boolean): Tile {
  const p = pitch;
  const lines = rising
    ? `M${-p / 4} ${p / 4}L${p / 4} ${-p / 4}M0 ${p}L${p} 0M${(3 * p) / 4} ${(5 * p) / 4}L${(5 * p) / 4} ${(3 * p) / 4}`
    : `M${-p / 4} ${(3 * p) / 4}L${p / 4} ${(5 * p) / 4}M0 0L${p} ${p}M${(3 * p) / 4} ${-p / 4}L${(5 * p) / 4} ${p / 4}`;
  return { width: p, height: p, lines, fills: '' };
}

/** One tile of a hatch [px]. */
export function tile(hatch: Hatch): Tile {
  switch (hatch) {
    case 'piston':
      return slanted(12, true);
    case 'cylinder':
      return slanted(5, false);
    case 'limit':
      return slanted(7, true);
    case 'metal_to_go':
      return slanted(5, true);
    case 'upright':
      return { width: 5, height: 10, lines: 'M2.5 0V10', fills: '' };
    case 'level':
      return { width: 10, height: 5, lines: 'M0 2.5H10', fills: '' };
    case 'dots':
      return { width: 7, height: 7, lines: '', fills: circle(1.75, 1.75, 1) + circle(5.25, 5.25, 1) };
    case 'crosses':
      return { width: 9, height: 10, lines: cross(2.25, 2.5, 2) + cross(6.75, 7.5, 2), fills: '' };
    case 'squares':
      return { width: 10, height: 10, lines: square(2.5, 2.5, 1.8) + square(7.5, 7.5, 1.8), fills: '' };
    case 'rings':
      return { width: 10, height: 10, lines: circle(2.5, 2.5, 1.9) + circle(7.5, 7.5, 1.9), fills: '' };
    case 'waves':
      return { width: 12, height: 6, lines: 'M0 3Q3 0 6 3T12 3', fills: '' };
  }
}
