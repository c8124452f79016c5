// Torque and power over speed, stock behind: one axis for kW and N m, names at the ends of the lines.

import { chain } from './path';
import { spread } from './spread';
import { multiples, numberText, roundStep, ticks } from './ticks';

export interface Point {
  rpm: number;
  power_kw: number;
  torque_nm: number;
  stage: string;
  settled: string;
}

export interface CurveFrame {
  left: number;
  right: number;
  top: number;
  bottom: number;
  from: number;
  to: number;
  most: number;
}

/** The frame of all points there are; the axis begins at nothing. */
export function curveFrame(all: readonly Point[], width: number, height: number, right = 76): CurveFrame {
  const speeds = all.map((point) => point.rpm);
  const from = Math.min(...speeds);
  const to = Math.max(...speeds);
  const most = Math.max(0.5, ...all.flatMap((point) => [point.power_kw, point.torque_nm]));
  const step = roundStep(most * 1.06, 5);
  return { left: 34, right: width - right, top: 26, bottom: height - 30, from, to: to > from ? to : from + 1000, most: Math.ceil((most * 1.06) / step) * step };
}

export const speedX = (frame: CurveFrame, rpm: number): number => frame.left + ((rpm - frame.from) / (frame.to - frame.from)) * (frame.right - frame.left);
export const speedOf = (frame: CurveFrame, x: number): number => frame.from + ((x - frame.left) / (frame.right - frame.left)) * (frame.to - frame.from);
export const valueY = (frame: CurveFrame, value: number): number => frame.bottom - (Math.max(0, value) / frame.most) * (frame.bottom - frame.top);

const rough = 'first look';

export type Quantity = 'power_kw' | 'torque_nm';

/** Lines through the points that are there, by speed; none through a speed at which the engine does not pull. */
export function curveLine(points: readonly Point[], frame: CurveFrame, of: Quantity): string {
  const ordered = [...points].sort((a, b) => a.rpm - b.rpm);
  const runs: Point[][] = [[]];
  for (const point of ordered) {
    if (point.power_kw > 0) runs.at(-1)!.push(point);
    else runs.push([]);
  }
  return runs.map((run) => chain(run.map((point) => ({ x: speedX(frame, point.rpm), y: valueY(frame, point[of]) })))).join('');
}

export const curveSpeeds = (frame: CurveFrame): { x: number; text: string }[] =>
  ticks(frame.from, frame.to, frame.right - frame.left < 360 ? 4 : 8).map((rpm) => ({ x: speedX(frame, rpm), text: numberText(rpm, 0) }));

export function curveLevels(frame: CurveFrame): { y: number; text: string }[] {
  const step = roundStep(frame.most, 5);
  return multiples(step, frame.most, step).map((value) => ({ y: valueY(frame, value), text: numberText(value, step < 1 ? 1 : 0) }));
}

export interface EndLabel {
  text: string;
  /** whose line it names */
  of: 'hand' | 'other' | 'stock';
  x: number;
  y: number;
}

/** Names at the right ends of the lines, none on another; those of a second what-if say so. */
export function endLabels(points: readonly Point[], stock: readonly Point[], frame: CurveFrame, beside: readonly Point[] = []): EndLabel[] {
  const last = (all: readonly Point[]) => [...all].sort((a, b) => a.rpm - b.rpm).at(-1);
  const lines = [
    { of: 'hand' as const, point: last(points), after: '' },
    { of: 'other' as const, point: last(beside), after: ', other' },
    { of: 'stock' as const, point: last(stock), after: '' },
  ];
  const ends = lines.flatMap(({ of, point, after }) =>
    point === undefined
      ? []
      : (['power_kw', 'torque_nm'] as const).map((quantity) => ({ text: (quantity === 'power_kw' ? 'power' : 'torque') + after, of, x: speedX(frame, point.rpm) + 10, at: valueY(frame, point[quantity]) })),
  );
  const ys = spread(ends.map((end) => ({ at: end.at, width: 16 })), 2, frame.top - 8, frame.bottom + 4);
  return ends.map(({ text, of, x }, k) => ({ text, of, x, y: ys[k]! + 5 }));
}

/** Changes in power at speeds that stock and what-if share, reckoned alike and with the engine firing. */
export function shared(points: readonly Point[], stock: readonly Point[]): { rpm: number; change: number }[] {
  const before = new Map(stock.map((point) => [point.rpm, point]));
  return [...points]
    .sort((a, b) => a.rpm - b.rpm)
    .flatMap((point) => {
      const old = before.get(point.rpm);
      return old === undefined || (old.stage === rough) !== (point.stage === rough) || !(old.power_kw > 0) || !(point.power_kw > 0) ? [] : [{ rpm: point.rpm, change: point.power_kw - old.power_kw }];
    });
}

/** The point nearest to a speed. */
export function nearestPoint(points: readonly Point[], rpm: number): Point | undefined {
  let best: Point | undefined;
  for (const point of points) if (best === undefined || Math.abs(point.rpm - rpm) < Math.abs(best.rpm - rpm)) best = point;
  return best;
}
