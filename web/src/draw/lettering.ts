// Widths of drawn letters, so that a drawing is laid out before anything is on the screen.

import { advances } from '../made/lettering';

const box = 0.44; // advance of a letter the table does not have [em]
const tracking = 0.04; // set apart a little on drawings [em]

/** Width of a line of lettering at a font size [px]. */
export function textWidth(text: string, size: number): number {
  let em = 0;
  for (const letter of text) em += (advances[letter] ?? box) + tracking;
  return em * size;
}

export type Anchor = 'start' | 'middle' | 'end';

/** A line of lettering on a drawing; y is its base line. */
export interface Lettered {
  text: string;
  x: number;
  y: number;
  size: number;
  anchor: Anchor;
  /** turned a quarter to the left, read from the right */
  upright?: boolean;
}

export interface Box {
  x: number;
  y: number;
  w: number;
  h: number;
}

const over = 0.74; // capital over the base line [em]
const under = 0.22; // tail below it [em]

/** The box that a line of lettering takes [px]. */
export function boxOf(line: Lettered): Box {
  const width = textWidth(line.text, line.size);
  const before = line.anchor === 'start' ? 0 : line.anchor === 'middle' ? width / 2 : width;
  if (line.upright) {
    return { x: line.x - over * line.size, y: line.y - (width - before), w: (over + under) * line.size, h: width };
  }
  return { x: line.x - before, y: line.y - over * line.size, w: width, h: (over + under) * line.size };
}

/** Whether two boxes share more than a touch. */
export function overlap(a: Box, b: Box, slack = 0.5): boolean {
  return a.x < b.x + b.w - slack && b.x < a.x + a.w - slack && a.y < b.y + b.h - slack && b.y < a.y + a.h - slack;
}
