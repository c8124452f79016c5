// Where the unrolled bore stands on the screen: one scale both ways, margins for its dimensions.

import type { BoreAnswer, BoreEdge, BoreWindow } from '../made/bore';
import { type Move, placed } from './path';

export interface BoreFrame {
  /** pixels of a millimetre */
  scale: number;
  width: number;
  height: number;
  /** the wall: seam, head and the lower end of the picture */
  left: number;
  right: number;
  top: number;
  bottom: number;
  /** y of the crown edge at TDC */
  zero: number;
  base?: number;
}

export interface Margins {
  left: number;
  right: number;
  top: number;
  bottom: number;
}

export const wide: Margins = { left: 66, right: 56, top: 62, bottom: 4 };
export const narrow: Margins = { left: 6, right: 6, top: 40, bottom: 4 };

const below = 9; // as much is drawn below the base face [mm]

/** The lowest place that the picture shows [mm]. */
function depth(bore: BoreAnswer): number {
  const floors = bore.windows.map((window) => window.y_mm + window.h_mm + 4);
  const lowest = Math.max(0, bore.bdc_mm ?? 0, ...floors);
  return Math.max(lowest, bore.base_mm !== undefined ? bore.base_mm + below : lowest + below);
}

/** The frame for a width; undefined while the bore is not read. */
export function boreFrame(bore: BoreAnswer, width: number, margins: Margins = wide): BoreFrame | undefined {
  const around = bore.around_mm;
  if (around === undefined || !(width > margins.left + margins.right + 40)) return undefined;
  const scale = (width - margins.left - margins.right) / around;
  const head = Math.min(0, bore.head_mm ?? 0);
  const zero = margins.top - head * scale;
  const bottom = zero + depth(bore) * scale;
  const frame = { scale, width, height: bottom + margins.bottom, left: margins.left, right: width - margins.right, top: margins.top, bottom, zero };
  return bore.base_mm === undefined ? frame : { ...frame, base: zero + bore.base_mm * scale };
}

/** x of a place on the wall [mm from the seam's left]. */
export const boreX = (frame: BoreFrame, mm: number): number => frame.left + mm * frame.scale;
/** y of a drop below the crown edge's TDC place. */
export const boreY = (frame: BoreFrame, mm: number): number => frame.zero + mm * frame.scale;
/** Drop [mm] of a y. */
export const dropOf = (frame: BoreFrame, y: number): number => (y - frame.zero) / frame.scale;

/** x of an angle round the bore; the seam's left edge is one turn before its right one. */
export function placeX(bore: BoreAnswer, frame: BoreFrame, degrees: number): number {
  const first = (bore.seam_deg ?? 225) - 360;
  const turned = (((degrees - first) % 360) + 360) % 360;
  return boreX(frame, (turned / 360) * (bore.around_mm ?? 0));
}

/** The move of window paths, or of the piston with its crown edge at a drop. */
export function boreMove(frame: BoreFrame, drop = 0): Move {
  return { scale: frame.scale, dx: frame.left, dy: frame.zero + drop * frame.scale };
}

export const windowPath = (frame: BoreFrame, path: string, drop = 0): string => placed(path, boreMove(frame, drop));

/** The edge of a window that opens it, else its roof. */
export function timedEdge(window: BoreWindow): { edge: BoreEdge; name: 'roof' | 'floor' } {
  return window.floor.timed ? { edge: window.floor, name: 'floor' } : { edge: window.roof, name: 'roof' };
}

/** The first word of a printed value: "36.54 mm (1 439 thou)" is 36.54 on a drawing whose unit is said once. */
export function bare(text: string): string {
  return text.replace(/^about /, '').split(/[ \u00a0](?=[^\d\s])/)[0] ?? text;
}
