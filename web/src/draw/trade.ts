// What was tried for a wish about the engine: pull against most power, heat by size and shade.

import type { SeekTried } from '../made/seek';
import { multiples, roundStep } from './ticks';

export interface TradeDot {
  x: number;
  y: number;
  /** radius [px]; more heat is larger */
  r: number;
  /** 0 least heat, 4 most */
  shade: number;
  holds: boolean;
}

export interface TradeTick {
  at: number;
  value: number;
}

export interface Trade {
  dots: TradeDot[];
  best: TradeDot | undefined;
  /** stock, where nothing changes */
  stock: { x: number; y: number };
  across: TradeTick[];
  up: TradeTick[];
  frame: { left: number; top: number; right: number; bottom: number };
  /** heat of the least and of the most shade [%] */
  heat: { low: number; high: number };
}

const shades = 5;

function span(values: readonly number[]): { low: number; high: number } {
  const low = Math.min(0, ...values);
  const high = Math.max(0, ...values);
  const room = Math.max(1, 0.08 * (high - low));
  return { low: low - room, high: high + room };
}

/** Places of all that was tried [px]; lists that do not hold and lie far off do not squeeze the rest. */
export function trade(tried: readonly SeekTried[], best: SeekTried | undefined, width: number, height: number): Trade {
  const frame = { left: 44, top: 12, right: width - 10, bottom: height - 40 };
  const told = tried.filter((one) => one.holds);
  const of = told.length > 2 ? told : tried;
  const xs = span(of.map((one) => one.pull));
  const ys = span(of.map((one) => one.power));
  const x = (value: number) => frame.left + ((value - xs.low) / (xs.high - xs.low)) * (frame.right - frame.left);
  const y = (value: number) => frame.bottom - ((value - ys.low) / (ys.high - ys.low)) * (frame.bottom - frame.top);
  const heats = of.map((one) => one.heat);
  const heat = { low: Math.min(0, ...heats), high: Math.max(0, ...heats) };
  const share = (one: SeekTried) => (heat.high - heat.low < 1e-9 ? 0.5 : Math.min(1, Math.max(0, (one.heat - heat.low) / (heat.high - heat.low))));
  const dot = (one: SeekTried): TradeDot => ({ x: x(one.pull), y: y(one.power), r: one.holds ? 3 + 4 * share(one) : 2, shade: Math.min(shades - 1, Math.floor(shades * share(one))), holds: one.holds });
  const inside = (one: TradeDot) => one.x >= frame.left && one.x <= frame.right && one.y >= frame.top && one.y <= frame.bottom;
  const axis = (from: { low: number; high: number }, most: number, at: (value: number) => number) => multiples(from.low, from.high, roundStep(from.high - from.low, most)).map((value) => ({ at: at(value), value }));
  return {
    dots: tried.map(dot).filter(inside),
    best: best === undefined ? undefined : dot(best),
    stock: { x: x(0), y: y(0) },
    across: axis(xs, Math.max(2, Math.floor(width / 90)), x),
    up: axis(ys, 6, y),
    frame,
    heat,
  };
}
