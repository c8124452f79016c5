// One window large, for the hand: the cut one with stock in it.

import type { BoreWindow } from '../made/bore';
import type { Move } from './path';

export interface WindowFrame extends Move {
  width: number;
  height: number;
  /** box of window and stock [px] */
  box: { x: number; y: number; w: number; h: number };
}

const margin = { left: 30, right: 30, top: 44, bottom: 40 };

/** Fits a window and its stock into a width, no higher than asked. */
export function windowFrame(window: BoreWindow, stock: BoreWindow | undefined, width: number, most: number): WindowFrame {
  const all = stock === undefined ? [window] : [window, stock];
  const x = Math.min(...all.map((one) => one.x_mm));
  const y = Math.min(...all.map((one) => one.y_mm));
  const w = Math.max(...all.map((one) => one.x_mm + one.w_mm)) - x;
  const h = Math.max(...all.map((one) => one.y_mm + one.h_mm)) - y;
  const scale = Math.min((width - margin.left - margin.right) / w, (most - margin.top - margin.bottom) / h);
  const left = (width - w * scale) / 2;
  const top = margin.top;
  return {
    scale,
    dx: left - x * scale,
    dy: top - y * scale,
    width,
    height: h * scale + margin.top + margin.bottom,
    box: { x: left, y: top, w: w * scale, h: h * scale },
  };
}
