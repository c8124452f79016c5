// What is left, as a gap between two pieces of metal: the hatched block is the limit, the line the value with its band,
// the tick the stock; all gaps of a screen at one scale.

export interface GapRow {
  id: string;
  value: number;
  low: number | null;
  high: number | null;
  stock?: number | null;
  limit: number;
  /** "at least": more is safe; "at most": less is safe */
  side: string;
}

export interface Gap {
  /** the block: its free face, and how far it reaches behind */
  face: number;
  behind: number;
  value: number;
  low?: number;
  high?: number;
  stock?: number;
  /** value so far away that it stands at the end with a break */
  broken: boolean;
  stockBroken: boolean;
}

const block = 26; // width of the block [px]

/** Pixels of one unit that a screen's gaps share: the middle gap takes about half the width. */
export function gapScale(rows: readonly GapRow[], width: number): number {
  const gaps = rows.map((row) => Math.abs(row.value - row.limit)).filter((gap) => gap > 0).sort((a, b) => a - b);
  const middle = gaps[Math.floor(gaps.length / 2)] ?? 1;
  const raw = (width - block) / 2 / middle;
  return [100, 50, 40, 20, 10, 5, 2, 1].map((times) => times * perMm).find((scale) => scale <= raw) ?? raw;
}

/** Pixels of a millimetre on the screen by its own reckoning: 96 to the inch. */
export const perMm = 96 / 25.4;

/** One gap at the screen's scale. Inside the block means past the limit. */
export function gap(row: GapRow, width: number, scale: number): Gap {
  const outward = row.side.includes('most') ? -1 : 1;
  const x = (value: number) => block + (value - row.limit) * outward * scale;
  const hold = (at: number) => Math.min(width - 3, Math.max(2, at));
  const out: Gap = { face: block, behind: 0, value: hold(x(row.value)), broken: x(row.value) > width - 3, stockBroken: false };
  if (row.low !== null && row.high !== null) {
    const [a, b] = [x(row.low), x(row.high)].sort((one, two) => one - two) as [number, number];
    out.low = hold(a);
    out.high = hold(b);
  }
  if (row.stock !== undefined && row.stock !== null) {
    out.stock = hold(x(row.stock));
    out.stockBroken = x(row.stock) > width - 3;
  }
  return out;
}
