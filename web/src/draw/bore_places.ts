// Where the words of the unrolled bore stand: the note on the edge in hand, the crown's and the skirt's names, and the
// edges that one can take.

import type { BoreAnswer, BoreWindow } from '../made/bore';
import { type BoreFrame, boreX, boreY } from './bore_frame';
import { type Across, freeEnd } from './bore_labels';
import type { Balloon, Mark } from './bore_marks';
import type { Detail } from './detail';
import { textWidth } from './lettering';

export type Edge = 'roof' | 'floor';

/** The edge in hand in all its forms: a line in words, its value, lines of lettering below. */
export interface Note {
  title: string;
  value: string;
  lines: string[];
}

/** Windows of a second what-if, and how far its cylinder lies lower against the crown edge. */
export interface Beside {
  windows: readonly BoreWindow[];
  shift_mm: number;
}

export const isChanged = (window: BoreWindow): boolean => window.changed || window.roof.moved || window.floor.moved;

/** An edge as a line: its y, the stretch that is drawn when it is in hand, and the window's whole width. */
export function edgeLine(frame: BoreFrame, window: BoreWindow, edge: Edge, down = 0): { y: number; from: number; to: number; x: number; w: number } {
  const y = boreY(frame, window[edge].at_mm + down);
  const x = boreX(frame, window.x_mm);
  const w = window.w_mm * frame.scale;
  return { y, from: x + w * 0.18, to: x + w * 0.82, x, w };
}

export interface NoteBox {
  x: number;
  top: number;
  width: number;
  height: number;
  /** the edge that it speaks of */
  to: { x: number; y: number };
}

/** Room for a note above its edge; undefined where there is none. `picked` is "exhaust roof". */
export function noteBox(bore: BoreAnswer, frame: BoreFrame, note: Note, picked: string, ghosts: Record<string, number> = {}): NoteBox | undefined {
  const window = bore.windows.find((one) => picked.startsWith(`${one.port} `));
  if (window === undefined) return undefined;
  const edge: Edge = picked.endsWith(' floor') ? 'floor' : 'roof';
  const line = edgeLine(frame, window, edge, ghosts[`${window.port} ${edge}`]);
  const width = Math.max(textWidth(note.title, 16) + textWidth(note.value, 28) + 28, ...note.lines.map((text) => textWidth(text, 14.5)));
  const height = 26 + note.lines.length * 19;
  const top = Math.max(frame.top + 18, Math.min(line.y - 22 - height, frame.zero + 26));
  if (top + height + 6 > line.y) return undefined;
  const x = Math.max(frame.left + 10, Math.min(frame.right - width - 10, (line.from + line.to) / 2 - width / 2));
  return { x, top, width, height, to: { x: (line.from + line.to) / 2, y: line.y } };
}

/** x under the exhaust's middle, where words of the whole bore stand. */
export function middleX(bore: BoreAnswer, frame: BoreFrame): number {
  return boreX(frame, bore.windows.find((window) => window.kind === 'exhaust')?.middle_mm ?? (bore.around_mm ?? 0) / 2);
}

/** The crown's name and place, at the free end above its line; none near TDC. */
export function crownLabel(bore: BoreAnswer, frame: BoreFrame, drop: number): { text: string; x: number; y: number } | undefined {
  const y = boreY(frame, drop);
  if (y - frame.zero <= 40) return undefined;
  const text = `crown edge ${drop.toFixed(2)}`;
  const x = freeEnd(bore, frame, textWidth(text, 15), y - 22, y - 2);
  return x === undefined ? undefined : { text, x, y: y - 8 };
}

/** y of the word "skirt" on the piston; none where it would stand on something else. */
export function skirtWordY(bore: BoreAnswer, frame: BoreFrame, drop: number, chord: Across | undefined, marks: readonly Mark[]): number | undefined {
  if (bore.piston.height_mm === undefined) return undefined;
  const middle = middleX(bore, frame);
  const at = Math.min(boreY(frame, drop + bore.piston.height_mm) - 14, frame.bottom - 12);
  const base = frame.base ?? frame.bottom;
  const taken = [...(chord === undefined ? [] : [chord.y - 6]), ...marks.filter((mark) => Math.abs(mark.x - middle) < 50).map((mark) => mark.y)];
  const clear = (at > base + 22 || at < base - 24) && taken.every((other) => Math.abs(at - 5 - other) > 24);
  return clear ? at : undefined;
}

/** The skirt's edge at TDC, under the exhaust alone; none where it would cross the window or lie far from it. */
export function skirtLine(bore: BoreAnswer, frame: BoreFrame): { from: number; to: number; y: number } | undefined {
  const exhaust = bore.windows.find((window) => window.kind === 'exhaust');
  if (exhaust === undefined || bore.piston.height_mm === undefined) return undefined;
  const y = boreY(frame, bore.piston.height_mm);
  const floor = boreY(frame, exhaust.y_mm + exhaust.h_mm);
  if (y < floor + 3 || y > floor + 40) return undefined;
  return { from: boreX(frame, exhaust.x_mm) - 4, to: boreX(frame, exhaust.x_mm + exhaust.w_mm) + 4, y };
}

/** Whether the least wall's line is clear of the detail, the balloons and the note. */
export function wallIsClear(wall: Across, large: Detail | undefined, balloons: readonly Balloon[], note: NoteBox | undefined): boolean {
  const detailAway = large === undefined || Math.abs(large.y - wall.y) > 44 || large.x < wall.from - 50 || large.x > wall.to + 120;
  const balloonsAway = balloons.every((one) => Math.abs(one.y - wall.y) > 24 || one.x < wall.from - 40 || one.x > wall.to + 110);
  const noteAway = note === undefined || wall.from > note.x + note.width + 30 || wall.to + 110 < note.x;
  return detailAway && balloonsAway && noteAway;
}
