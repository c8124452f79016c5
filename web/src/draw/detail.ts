// A small cut shown large: a detail circle beside the bore, where it covers no window.

import type { BoreAnswer, BoreWindow } from '../made/bore';
import { type BoreFrame, boreX, boreY } from './bore_frame';
import { type Move } from './path';

export interface Detail {
  /** the corner that is shown, and the ring round it */
  x: number;
  y: number;
  ring: number;
  /** the circle and its radius */
  cx: number;
  cy: number;
  radius: number;
  times: number;
  move: Move;
  window: BoreWindow;
}

const radius = 54;
const times = 4;

/** The detail of the changed window in hand; nothing where every place for it is taken. */
export function detail(bore: BoreAnswer, frame: BoreFrame, window: BoreWindow | undefined, taken: readonly { x: number; y: number; w: number; h: number }[] = []): Detail | undefined {
  if (window === undefined || frame.base === undefined) return undefined;
  const corner = { x: boreX(frame, window.x_mm + window.w_mm), y: boreY(frame, window.floor.moved && !window.roof.moved ? window.y_mm + window.h_mm : window.y_mm) };
  const ring = radius / times;
  const boxes = [
    ...bore.windows.map((one) => ({ x: boreX(frame, one.x_mm), y: boreY(frame, one.y_mm), w: one.w_mm * frame.scale, h: one.h_mm * frame.scale })),
    ...taken,
  ];
  const places = [frame.right - radius - 34, frame.left + radius + 60, corner.x + radius * 2 + 40].flatMap((cx) =>
    [frame.zero + radius + 14, frame.base! - radius - 26].map((cy) => ({ cx, cy })),
  );
  const free = places.find(({ cx, cy }) => cx + radius < frame.right - 4 && cx - radius > frame.left + 4 && boxes.every((box) => clear(box, cx, cy, radius + 10)));
  if (free === undefined) return undefined;
  const scale = frame.scale * times;
  const x = corner.x - ring * 0.35;
  const y = corner.y + (window.floor.moved && !window.roof.moved ? -1 : 1) * ring * 0.35;
  const mm = { x: (x - frame.left) / frame.scale, y: (y - frame.zero) / frame.scale };
  return { x, y, ring, ...free, radius, times, move: { scale, dx: free.cx - mm.x * scale, dy: free.cy - mm.y * scale }, window };
}

/** Whether a box stays out of a circle. */
function clear(box: { x: number; y: number; w: number; h: number }, cx: number, cy: number, r: number): boolean {
  const x = Math.max(box.x, Math.min(cx, box.x + box.w));
  const y = Math.max(box.y, Math.min(cy, box.y + box.h));
  return Math.hypot(x - cx, y - cy) >= r;
}
