// Where letters of findings and numbers of cuts stand on the unrolled bore.

import type { BoreAnswer, BoreWindow } from '../made/bore';
import { type BoreFrame, boreX, boreY, placeX } from './bore_frame';
import { type Lettering, type Said, type State } from './finding_shapes';
import { spread } from './spread';

export interface Where {
  port: string;
  side: string;
  height_mm: number | null;
  angle_deg: number | null;
}

export interface Mark {
  letter: string;
  state: State;
  accepted: boolean;
  x: number;
  y: number;
  /** where it points */
  toX: number;
  toY: number;
}

const size = 26;

function windowOf(bore: BoreAnswer, where: Where): BoreWindow | undefined {
  const all = bore.windows.filter((window) => window.port === where.port);
  return all.find((window) => (where.side === 'mirrored') === (window.side === 1)) ?? all[0];
}

function spot(bore: BoreAnswer, frame: BoreFrame, where: Where): { x: number; y: number } | undefined {
  const window = windowOf(bore, where);
  const x = where.angle_deg !== null ? placeX(bore, frame, where.angle_deg) : window && boreX(frame, window.middle_mm);
  const height = where.height_mm !== null && bore.base_mm !== undefined ? bore.base_mm - where.height_mm : window?.floor.at_mm;
  if (x === undefined || height === undefined) return undefined;
  const y = boreY(frame, height);
  const under = window === undefined ? y : boreY(frame, window.y_mm + window.h_mm) + 17;
  const over = window !== undefined && y > boreY(frame, window.y_mm) - 14 && y < under;
  return { x, y: Math.min(over ? under : y, frame.bottom - size) };
}

/** Marks of the findings that have a place, set apart in rows where they would stand on one another. */
export function findingMarks<T extends Said & { where: Where }>(bore: BoreAnswer, frame: BoreFrame, findings: readonly Lettering<T>[]): Mark[] {
  const marks = findings.flatMap(({ finding, letter }) => {
    const at = spot(bore, frame, finding.where);
    if (at === undefined) return [];
    return [{ letter, state: finding.state, accepted: finding.accepted, x: at.x, y: at.y, toX: at.x, toY: at.y }];
  });
  const rows = new Map<number, Mark[]>();
  for (const mark of marks) {
    const row = [...rows.keys()].find((y) => Math.abs(y - mark.y) < size) ?? mark.y;
    rows.set(row, [...(rows.get(row) ?? []), mark]);
  }
  for (const [y, row] of rows) {
    const middles = spread(row.map((mark) => ({ at: mark.x, width: size })), 3, frame.left, frame.right);
    row.forEach((mark, k) => {
      mark.x = middles[k]!;
      mark.y = y;
    });
  }
  return marks;
}

export interface Balloon {
  number: number;
  x: number;
  y: number;
  toX: number;
  toY: number;
}

/** Balloons over the first window that each cut worked on, side by side above the roofs. */
export function balloons(bore: BoreAnswer, frame: BoreFrame, cuts: readonly { number: number; target: string; edge: string }[]): Balloon[] {
  const placed = cuts.flatMap((cut) => {
    const window = bore.windows.find((one) => one.port === cut.target);
    if (window === undefined) {
      if (cut.target !== '' || frame.base === undefined) return [];
      return [{ number: cut.number, toX: frame.left + 40, toY: frame.base, floor: true, x: 0, y: frame.base + 22 }];
    }
    const floor = cut.edge === 'floor';
    const y = boreY(frame, floor ? window.y_mm + window.h_mm : window.y_mm);
    return [{ number: cut.number, toX: boreX(frame, window.middle_mm), toY: y, floor, x: 0, y: floor ? y + 30 : Math.max(frame.zero + 18, y - 62) }];
  });
  for (const floor of [true, false]) {
    const row = placed.filter((one) => one.floor === floor);
    const middles = spread(row.map((one) => ({ at: one.toX, width: 30 })), 8, frame.left, frame.right);
    row.forEach((one, k) => {
      one.x = middles[k]!;
      one.toX += Math.max(-12, Math.min(12, one.x - one.toX));
    });
  }
  return placed.map(({ number, x, y, toX, toY }) => ({ number, x, y, toX, toY }));
}
