// The field of heat on the unrolled bore: by how much of the wall is hotter, in five steps, and the lines between them.
// Under what is assumed the field is no temperature, so its steps are shares of the wall; differences stand in the table,
// each with its range.

import type { BoreAnswer } from '../made/bore';
import { type BoreFrame, boreX, boreY, placeX } from './bore_frame';
import { signed } from './figure_text';
import { type Box, boxOf, type Lettered, overlap, textWidth } from './lettering';
import { chain } from './path';
import { decimals, multiples, roundStep } from './ticks';

export interface HeatGrid {
  /** columns clockwise from the exhaust's centre, rows down from the crown edge's TDC place */
  around: number;
  rows: number;
  row_mm: number;
  /** row by row */
  over_mean: readonly number[];
}

export interface Point {
  x: number;
  y: number;
}

/** Values on ascending places, carried on to the edges of the drawing. */
export interface Field {
  x: number[];
  y: number[];
  /** row by row */
  values: number[];
}

/** Shares of the wall that are hotter than a line, the hottest first. */
export const shares = [0.1, 0.25, 0.5, 0.75] as const;

/** The frame: from the crown edge at TDC down to the lowest row, as the bore's drawings have it. */
export function heatFrame(bore: BoreAnswer, grid: HeatGrid, width: number, phone: boolean): BoreFrame | undefined {
  const around = bore.around_mm;
  if (around === undefined || width < 120) return undefined;
  const side = phone ? 10 : 34;
  const top = phone ? 44 : 40;
  const scale = (width - 2 * side) / around;
  const bottom = top + grid.rows * grid.row_mm * scale;
  return { scale, width, height: bottom + 46, left: side, right: width - side, top, bottom, zero: top };
}

/** The field over the frame; its columns from the seam's left to its right. */
export function fieldOf(bore: BoreAnswer, frame: BoreFrame, grid: HeatGrid): Field {
  const columns = Array.from({ length: grid.around }, (_, c) => ({ x: placeX(bore, frame, ((c + 0.5) * 360) / grid.around), c })).sort((a, b) => a.x - b.x);
  const wide = frame.right - frame.left;
  const last = columns.at(-1)!;
  const round = [{ x: last.x - wide, c: last.c }, ...columns, { x: columns[0]!.x + wide, c: columns[0]!.c }];
  const rows = [{ y: frame.top, r: 0 }, ...Array.from({ length: grid.rows }, (_, r) => ({ y: boreY(frame, (r + 0.5) * grid.row_mm), r })), { y: frame.bottom, r: grid.rows - 1 }];
  return { x: round.map((one) => one.x), y: rows.map((one) => one.y), values: rows.flatMap(({ r }) => round.map(({ c }) => grid.over_mean[r * grid.around + c]!)) };
}

/** Whether a place of the wall is a window: there is nothing to be hot. */
export function inWindow(bore: BoreAnswer, frame: BoreFrame, { x, y }: Point): boolean {
  return bore.windows.some((one) => x > boreX(frame, one.x_mm) && x < boreX(frame, one.x_mm + one.w_mm) && y > boreY(frame, one.y_mm) && y < boreY(frame, one.y_mm + one.h_mm));
}

/** Values of the wall's metal, the greatest first; over windows there are none. */
function metalOf(bore: BoreAnswer, frame: BoreFrame, grid: HeatGrid): number[] {
  const metal: number[] = [];
  grid.over_mean.forEach((value, k) => {
    const place = { x: placeX(bore, frame, (((k % grid.around) + 0.5) * 360) / grid.around), y: boreY(frame, (Math.floor(k / grid.around) + 0.5) * grid.row_mm) };
    if (!inWindow(bore, frame, place)) metal.push(value);
  });
  return metal.sort((a, b) => b - a);
}

/** The value that a share of them exceeds. */
function exceeded(metal: readonly number[], share: number): number {
  const at = share * metal.length - 0.5;
  const below = Math.max(0, Math.min(metal.length - 1, Math.floor(at)));
  const above = Math.min(metal.length - 1, below + 1);
  return metal[below]! + (metal[above]! - metal[below]!) * Math.max(0, at - below);
}

/** Values that so much of the wall's metal exceeds, for each share. */
export function levelsOf(bore: BoreAnswer, frame: BoreFrame, grid: HeatGrid): number[] {
  const metal = metalOf(bore, frame, grid);
  return shares.map((share) => exceeded(metal, share));
}

type Piece = [Point, Point];

/** Pieces of a level within one cell; a saddle is parted by the cell's mean. */
function cellPieces(corner: readonly Point[], v: readonly number[], level: number): Piece[] {
  const met: Point[] = [];
  for (let s = 0; s < 4; ++s) {
    const a = v[s]!;
    const b = v[(s + 1) % 4]!;
    if (a > level === b > level) continue;
    const from = corner[s]!;
    const to = corner[(s + 1) % 4]!;
    const t = (level - a) / (b - a);
    met.push({ x: from.x + t * (to.x - from.x), y: from.y + t * (to.y - from.y) });
  }
  if (met.length === 2) return [[met[0]!, met[1]!]];
  if (met.length !== 4) return [];
  const apart = v[0]! > level !== (v[0]! + v[1]! + v[2]! + v[3]!) / 4 > level;
  return apart ? [[met[0]!, met[3]!], [met[1]!, met[2]!]] : [[met[0]!, met[1]!], [met[2]!, met[3]!]];
}

const key = ({ x, y }: Point) => `${Math.round(x * 1e4)} ${Math.round(y * 1e4)}`;

/** Pieces joined end to end; a ring ends where it began. */
function joined(pieces: readonly Piece[]): Point[][] {
  const ends = new Map<string, number[]>();
  pieces.forEach((piece, k) => piece.forEach((point) => ends.set(key(point), [...(ends.get(key(point)) ?? []), k])));
  const used = new Set<number>();
  const follow = (line: Point[]) => {
    for (;;) {
      const end = line.at(-1)!;
      const next = ends.get(key(end))?.find((k) => !used.has(k));
      if (next === undefined) return;
      used.add(next);
      const [a, b] = pieces[next]!;
      line.push(key(a) === key(end) ? b : a);
    }
  };
  const out: Point[][] = [];
  pieces.forEach((piece, k) => {
    if (used.has(k)) return;
    used.add(k);
    const line = [...piece];
    follow(line);
    line.reverse();
    follow(line);
    out.push(line);
  });
  return out;
}

/** Lines on which a field has a value. */
export function levelLines(field: Field, level: number): Point[][] {
  const n = field.x.length;
  const pieces: Piece[] = [];
  for (let j = 0; j + 1 < field.y.length; ++j)
    for (let i = 0; i + 1 < n; ++i) {
      const corner = [{ x: field.x[i]!, y: field.y[j]! }, { x: field.x[i + 1]!, y: field.y[j]! }, { x: field.x[i + 1]!, y: field.y[j + 1]! }, { x: field.x[i]!, y: field.y[j + 1]! }];
      const v = [field.values[j * n + i]!, field.values[j * n + i + 1]!, field.values[(j + 1) * n + i + 1]!, field.values[(j + 1) * n + i]!];
      for (const piece of cellPieces(corner, v, level)) if (key(piece[0]) !== key(piece[1])) pieces.push(piece);
    }
  return joined(pieces);
}

const sliver = 4; // a line that keeps to so narrow a strip tells nothing [px]

function isWide(line: readonly Point[], least: number): boolean {
  const across = (along: 'x' | 'y') => Math.max(...line.map((one) => one[along])) - Math.min(...line.map((one) => one[along]));
  return across('x') >= least && across('y') >= least;
}

/** All that is hotter than a level, as rings: the field goes down to nothing just beyond its edges. */
export function hotterPath(field: Field, level: number, least = 0): string {
  const n = field.x.length;
  const cold = level - 1e9;
  const edge = 0.5;
  const ring = {
    x: [field.x[0]! - edge, ...field.x, field.x.at(-1)! + edge],
    y: [field.y[0]! - edge, ...field.y, field.y.at(-1)! + edge],
    values: [
      ...new Array<number>(n + 2).fill(cold),
      ...field.y.flatMap((_, j) => [cold, ...field.values.slice(j * n, j * n + n), cold]),
      ...new Array<number>(n + 2).fill(cold),
    ],
  };
  return levelLines(ring, level)
    .filter((line) => isWide(line, least))
    .map((line) => chain(line, true))
    .join('');
}

const length = (line: readonly Point[]) => line.slice(1).reduce((sum, point, k) => sum + Math.hypot(point.x - line[k]!.x, point.y - line[k]!.y), 0);

/** Parts of a line that lie on metal. */
function onMetal(bore: BoreAnswer, frame: BoreFrame, line: readonly Point[]): Point[][] {
  const out: Point[][] = [[]];
  for (const point of line) {
    const inside = point.x >= frame.left && point.x <= frame.right && !inWindow(bore, frame, point);
    if (inside) out.at(-1)!.push(point);
    else if (out.at(-1)!.length > 0) out.push([]);
  }
  return out.filter((part) => part.length > 1);
}

export interface HeatStep {
  /** what parts it from the others */
  name: string;
  /** all that is hotter, to be filled by the rule of even and odd; empty: not filled */
  path: string;
  /** how strong it is filled, 1 to 4 */
  shade: number;
  lines: string[];
  /** bold, thin or dashed */
  kind: 'bold' | 'thin' | 'dashed';
  label?: Lettered;
}

const size = 14;

/** "10 %": so much of the wall is hotter. */
export const shareText = (share: number): string => `${Math.round(share * 100)} %`;

/** Steps from the widest to the hottest, each with its line's label where there is room. */
export function heatSteps(bore: BoreAnswer, frame: BoreFrame, grid: HeatGrid, taken: readonly Box[] = []): HeatStep[] {
  const field = fieldOf(bore, frame, grid);
  const boxes = boxesOf(bore, frame, taken);
  return levelsOf(bore, frame, grid)
    .map((level, k) => ({ ...linesAt(bore, frame, field, level, shareText(shares[k]!), boxes), path: hotterPath(field, level), shade: shares.length - k, kind: k === 0 ? ('bold' as const) : ('thin' as const) }))
    .reverse();
}

/** Steps of a change against stock [K]: at round numbers, nothing bold, what gets hotter shaded, what gets cooler dashed. */
export function changeSteps(bore: BoreAnswer, frame: BoreFrame, grid: HeatGrid, taken: readonly Box[] = []): HeatStep[] {
  const field = fieldOf(bore, frame, grid);
  const metal = metalOf(bore, frame, grid);
  const [low, high] = [exceeded(metal, 0.995), exceeded(metal, 0.005)]; // what a corner of a window does sets no scale
  const step = roundStep(high - low, 6);
  const boxes = boxesOf(bore, frame, taken);
  const places = decimals(step);
  const hotter = multiples(0, high, step).length;
  return multiples(low, high, step).map((level) => {
    const zero = Math.abs(level) < step / 2;
    const shade = level < -step / 2 ? 0 : 1 + Math.floor((Math.round(level / step) * 4) / Math.max(4, hotter));
    const kind = zero ? 'bold' : level > 0 ? 'thin' : 'dashed';
    return { ...linesAt(bore, frame, field, level, zero ? '0' : signed(level, places), boxes, sliver), path: shade === 0 ? '' : hotterPath(field, level, sliver), shade, kind };
  });
}

const boxesOf = (bore: BoreAnswer, frame: BoreFrame, taken: readonly Box[]): Box[] => [
  ...taken,
  ...bore.windows.map((one) => ({ x: boreX(frame, one.x_mm), y: boreY(frame, one.y_mm), w: one.w_mm * frame.scale, h: one.h_mm * frame.scale })),
];

/** Lines of a level with their label; its box joins what is taken. */
function linesAt(bore: BoreAnswer, frame: BoreFrame, field: Field, level: number, text: string, boxes: Box[], least = 0): Pick<HeatStep, 'name' | 'lines' | 'label'> {
  const lines = levelLines(field, level).filter((line) => isWide(line, least));
  const parts = lines.flatMap((line) => onMetal(bore, frame, line)).sort((a, b) => length(b) - length(a));
  const out = { name: text, lines: lines.map((line) => chain(line)) };
  const label = labelOn(parts, text, frame, boxes);
  if (label === undefined) return out;
  boxes.push(boxOf(label));
  return { ...out, label };
}

/** A place for a label on the longest part that has one. */
function labelOn(parts: readonly (readonly Point[])[], text: string, frame: BoreFrame, taken: readonly Box[]): Lettered | undefined {
  const half = textWidth(text, size) / 2;
  for (const part of parts)
    for (const share of [0.5, 0.35, 0.65, 0.22, 0.78, 0.1, 0.9]) {
      const { x, y } = part[Math.round(share * (part.length - 1))]!;
      if (x - half < frame.left + 3 || x + half > frame.right - 3 || y < frame.top + 8 || y > frame.bottom - 8) continue;
      const label: Lettered = { text, x, y: y + 5, size, anchor: 'middle' };
      if (!taken.some((one) => overlap(one, boxOf(label)))) return label;
    }
  return undefined;
}

/** Where a place of the answer stands on the map; undefined for what goes all round and for the piston. */
export function placeOn(bore: BoreAnswer, frame: BoreFrame, place: { angle_deg: number | null; drop_mm: number | null }): Point | undefined {
  if (place.angle_deg === null || place.drop_mm === null) return undefined;
  return { x: placeX(bore, frame, place.angle_deg), y: boreY(frame, place.drop_mm) };
}
