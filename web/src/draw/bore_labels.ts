// Lettering and dimensions of the unrolled bore, laid out so that nothing touches anything.

import type { BoreAnswer, BoreWindow } from '../made/bore';
import { type BoreFrame, bare, boreX, boreY } from './bore_frame';
import { type Lettered, textWidth } from './lettering';
import { fits, spread } from './spread';

export interface PortLabel {
  window: BoreWindow;
  /** its middle on the wall, and where the lettering could stand */
  x: number;
  at: number;
  name: Lettered;
  place: Lettered;
}

const nameSize = 15;
const placeSize = 14;

function degrees(value: number): string {
  const rounded = Math.round(value * 10) / 10;
  return `${rounded < 0 ? '\u2212' : ''}${Math.abs(rounded)}\u00b0`;
}

/** Names over the windows with their place round the bore; in two rows where one is too short. */
export function portLabels(bore: BoreAnswer, frame: BoreFrame, size = nameSize): PortLabel[] {
  const windows = [...bore.windows].sort((a, b) => a.middle_mm - b.middle_mm);
  const said = windows.map((window) => ({ name: window.port, place: degrees(window.centre_deg) }));
  const wanted = windows.map((window, k) => ({
    at: boreX(frame, window.middle_mm),
    width: Math.max(textWidth(said[k]!.name, size), textWidth(said[k]!.place, placeSize)),
  }));
  const low = 4;
  const high = frame.width - 4;
  const two = !fits(wanted, 10, low, high);
  const rows = two ? [wanted.filter((_, k) => k % 2 === 0), wanted.filter((_, k) => k % 2 === 1)] : [wanted];
  const placed = rows.map((row) => spread(row, 10, low, high));
  return windows.map((window, k) => {
    const row = two ? k % 2 : 0;
    const at = placed[row]![two ? Math.floor(k / 2) : k]!;
    const y = frame.top - (two ? 38 - row * 14 : 40);
    const line = (text: string, dy: number, size_: number): Lettered => ({ text, x: at, y: y + dy, size: size_, anchor: 'middle' });
    const name = line(said[k]!.name, two ? 11 : 0, size);
    return { window, x: boreX(frame, window.middle_mm), at, name, place: line(two ? '' : said[k]!.place, 17, placeSize) };
  });
}

export interface Level {
  /** x of its line, from and to [px] */
  x: number;
  from: number;
  to: number;
  /** x where its extension lines begin */
  start: number;
  text: Lettered;
  changed: boolean;
}

interface Height {
  at: number;
  text: string;
  start: number;
  changed: boolean;
}

const apart = 17;

/** Heights over the base face on one side, the longest outermost; one line for equal ones. */
function stack(frame: BoreFrame, heights: Height[], side: 'left' | 'right'): Level[] {
  const base = frame.base;
  if (base === undefined) return [];
  const kept: Height[] = [];
  for (const height of heights) if (!kept.some((one) => one.text === height.text)) kept.push(height);
  kept.sort((a, b) => b.at - a.at);
  return kept.slice(0, 3).map((height, k) => {
    const out = 22 + k * apart;
    const x = side === 'left' ? frame.left - out : frame.right + out;
    const span = base - height.at;
    const room = textWidth(height.text, nameSize) + 26;
    const middle = (base + height.at) / 2;
    const y = span >= room ? middle : base - room / 2 + 8;
    return {
      x,
      from: base,
      to: height.at,
      start: height.start,
      changed: height.changed,
      text: { text: height.text, x: x - 4, y, size: nameSize, anchor: 'middle' as const, upright: true },
    };
  });
}

/** Baseline dimensions from the base face: crown edge, exhaust roof and floor on the left, intake on the right. */
export function levels(bore: BoreAnswer, frame: BoreFrame): Level[] {
  const height = (window: BoreWindow, edge: 'roof' | 'floor', start: number): Height[] => {
    const one = window[edge];
    return one.height === undefined ? [] : [{ at: boreY(frame, one.at_mm), text: bare(one.height.text), start, changed: one.moved }];
  };
  const exhaust = bore.windows.find((window) => window.kind === 'exhaust');
  const intake = bore.windows.find((window) => window.kind === 'intake');
  const crown: Height[] = bore.base_mm === undefined ? [] : [{ at: frame.zero, text: bore.base_mm.toFixed(2), start: frame.left, changed: false }];
  const left = exhaust === undefined ? crown : [...crown, ...height(exhaust, 'roof', boreX(frame, exhaust.x_mm)), ...height(exhaust, 'floor', boreX(frame, exhaust.x_mm))];
  const right = intake === undefined ? [] : (['roof', 'floor'] as const).flatMap((edge) => height(intake, edge, boreX(frame, intake.x_mm + intake.w_mm)));
  return [...stack(frame, left, 'left'), ...stack(frame, right, 'right')];
}

export interface Across {
  y: number;
  from: number;
  to: number;
  text: Lettered;
  /** arrows from outside: too short for its own */
  outside: boolean;
}

/** The exhaust's chord under its floor. */
export function chordLine(bore: BoreAnswer, frame: BoreFrame): Across | undefined {
  const exhaust = bore.windows.find((window) => window.kind === 'exhaust');
  if (exhaust?.chord === undefined) return undefined;
  const all = bore.windows.filter((window) => window.kind === 'exhaust');
  const from = boreX(frame, Math.min(...all.map((window) => window.x_mm)));
  const to = boreX(frame, Math.max(...all.map((window) => window.x_mm + window.w_mm)));
  const y = boreY(frame, Math.max(...all.map((window) => window.y_mm + window.h_mm))) + 52;
  const text = `chord ${bare(exhaust.chord.text)}`;
  return { y, from, to, outside: to - from < textWidth(text, nameSize), text: { text, x: (from + to) / 2, y: y - 6, size: nameSize, anchor: 'middle' } };
}

/** The right-most place for a line of lettering that no window shares: its right end; undefined when there is none. */
export function freeEnd(bore: BoreAnswer, frame: BoreFrame, width: number, top: number, bottom: number): number | undefined {
  const walls = bore.windows
    .filter((window) => boreY(frame, window.y_mm) < bottom && boreY(frame, window.y_mm + window.h_mm) > top)
    .map((window) => ({ from: boreX(frame, window.x_mm) - 8, to: boreX(frame, window.x_mm + window.w_mm) + 8 }))
    .sort((a, b) => b.to - a.to);
  let end = frame.right - 8;
  for (const wall of walls) {
    if (end - wall.to >= width) return end;
    end = Math.min(end, wall.from);
  }
  return end - frame.left - 8 >= width ? end : undefined;
}

/** The least wall between two windows, over their roofs, its text on the side that is free. */
export function wallLine(bore: BoreAnswer, frame: BoreFrame, taken: readonly Level[] = []): Across | undefined {
  const wall = bore.wall;
  if (wall === undefined) return undefined;
  const from = boreX(frame, wall.x_mm);
  const to = boreX(frame, wall.to_x_mm);
  const pair = bore.windows.filter((window) => window.id === wall.from || window.id === wall.to);
  const roof = boreY(frame, Math.min(wall.y_mm, ...pair.map((window) => window.y_mm)));
  const free = [22, 12, 34, 46].find((rise) => taken.every((level) => Math.abs(level.to - (roof - rise)) > 8)) ?? 22;
  const y = roof - free;
  const text = `wall ${bare(wall.width.text)}`;
  const room = textWidth(text, nameSize) + 26;
  const leftwards = to + room > frame.right;
  return {
    y,
    from,
    to,
    outside: true,
    text: { text, x: leftwards ? from - 24 : to + 24, y: y + 5, size: nameSize, anchor: leftwards ? 'end' : 'start' },
  };
}
