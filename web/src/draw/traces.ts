// Pressures, flows and lifts over one turn, on the crank's ruler: panels of one unit each, names at the lines' ends.

import { at, onRuler, rulerX, spans, turn } from './crank';
import { type Box, boxOf, type Lettered, overlap } from './lettering';
import { chain } from './path';
import { spread } from './spread';
import { numberText, roundStep, ticks } from './ticks';
import type { Tint } from './hatches';

export interface Series {
  id: string;
  label: string;
  unit: string;
  values: readonly number[];
  stock: readonly number[];
}

export interface Panel {
  head: string;
  unit: string;
  series: Series[];
  /** drawn, but the axis does not follow it */
  beside: Series[];
}

const units: Record<string, string> = { cm2: 'cm\u00b2', 'mg/deg': 'mg/\u00b0', '-': '' };

/** Cylinder pressure alone; the pressures that breathe with the cylinder beside them; then one panel a unit. */
export function panels(series: readonly Series[]): Panel[] {
  const bars = series.filter((one) => one.unit === 'bar');
  const cylinder = bars.filter((one) => /cylinder/i.test(one.id));
  const breathing = bars.filter((one) => !cylinder.includes(one));
  const rest = series.filter((one) => one.unit !== 'bar');
  const heads: Record<string, string> = { 'mg/deg': 'flow', cm2: 'effective area', K: 'temperature', mm: 'lift', '%': 'share', '-': 'share' };
  const order = ['mg/deg', 'mm', 'cm2', '%', 'K', '-'];
  const left = [...new Set(rest.map((one) => one.unit))].sort((a, b) => rank(order, a) - rank(order, b));
  return [
    { head: 'pressure, gas exchange', unit: 'bar', series: breathing, beside: cylinder },
    ...left.filter((unit) => unit === 'mg/deg').map((unit) => panelOf(rest, unit, heads)),
    { head: 'pressure in the cylinder', unit: 'bar', series: cylinder, beside: [] },
    ...left.filter((unit) => unit !== 'mg/deg').map((unit) => panelOf(rest, unit, heads)),
  ].filter((panel) => panel.series.some((one) => one.values.some((value) => value !== 0)));
}

const rank = (order: readonly string[], unit: string) => (order.includes(unit) ? order.indexOf(unit) : order.length);

function panelOf(series: readonly Series[], unit: string, heads: Record<string, string>): Panel {
  return { head: heads[unit] ?? unit, unit: units[unit] ?? unit, series: series.filter((one) => one.unit === unit && one.values.some((value) => value !== 0)), beside: [] };
}

export interface TraceFrame {
  left: number;
  right: number;
  top: number;
  bottom: number;
  low: number;
  high: number;
}

/** The frame of a panel: its axis holds all of its own series, stock too, and ends on round numbers. */
export function traceFrame(panel: Panel, left: number, right: number, top: number, bottom: number): TraceFrame {
  const values = panel.series.flatMap((one) => [...one.values, ...one.stock]);
  const least = Math.min(...values, panel.unit === 'bar' ? 1 : 0);
  const most = Math.max(...values);
  const step = roundStep(most - least || 1, 4);
  return { left, right, top, bottom, low: Math.floor(least / step + 1e-9) * step, high: Math.ceil(most / step - 1e-9) * step };
}

export const traceY = (frame: TraceFrame, value: number): number => frame.bottom - ((value - frame.low) / (frame.high - frame.low || 1)) * (frame.bottom - frame.top);

export function traceLine(values: readonly number[], frame: TraceFrame): string {
  if (values.length < 2) return '';
  const points: { x: number; y: number }[] = [];
  for (let degrees: number = turn.from; degrees <= turn.to; ++degrees) points.push({ x: rulerX(degrees, frame.left, frame.right), y: traceY(frame, at(values, degrees)) });
  return chain(points);
}

export function traceLevels(frame: TraceFrame): { value: number; y: number; text: string }[] {
  const step = roundStep(frame.high - frame.low, 4);
  const places = step < 1 ? (step < 0.1 ? 2 : 1) : 0;
  return ticks(frame.low, frame.high, 4).map((value) => ({ value, y: traceY(frame, value), text: numberText(value, places) }));
}

export interface EndLabel {
  series: Series;
  name: string;
  value: string;
  y: number;
}

/** Names at the right ends with the value under the crank, none on another. */
export function traceLabels(panel: Panel, frame: TraceFrame, crank: number): EndLabel[] {
  const all = [...panel.series, ...panel.beside];
  const span = frame.high - frame.low;
  const places = span < 5 ? 2 : span < 500 ? 1 : 0;
  const hold = (y: number) => Math.min(frame.bottom - 4, Math.max(frame.top + 4, y));
  const ys = spread(all.map((one) => ({ at: hold(traceY(frame, at(one.values, turn.to - 0.01))), width: 17 })), 1, frame.top - 8, frame.bottom + 8);
  return all.map((series, k) => ({ series, name: shortLabel(series.label), value: numberText(at(series.values, crank), places), y: ys[k]! + 5 }));
}

/** Names on the lines themselves, where each is farthest from the others and from names already set. */
export function lineLabels(panel: Panel, frame: TraceFrame, size: number): { series: Series; line: Lettered }[] {
  const all = [...panel.series, ...panel.beside];
  const boxes: Box[] = [];
  return all.flatMap((series) => {
    let best: { score: number; line: Lettered; box: Box } | undefined;
    for (let degrees: number = turn.from + 10; degrees < turn.to; degrees += 5) {
      const value = at(series.values, degrees);
      const y = traceY(frame, value);
      if (value === 0) continue;
      if (y < frame.top || y > frame.bottom) continue;
      for (const rise of [-6, size + 2]) {
        const line: Lettered = { text: shortLabel(series.label), x: rulerX(degrees, frame.left, frame.right), y: y + rise, size, anchor: 'middle' };
        const box = boxOf(line);
        if (box.x < frame.left + 2 || box.x + box.w > frame.right || box.y < frame.top - 4 || box.y + box.h > frame.bottom + 6) continue;
        if (boxes.some((one) => overlap(one, box))) continue;
        const others = all.filter((one) => one !== series).map((one) => traceY(frame, at(one.values, degrees)));
        const score = Math.min(60, ...others.map((other) => Math.abs(other - (line.y - size * 0.35)))) - Math.abs(traceY(frame, at(series.values, degrees + 8)) - y) * 0.5;
        if (best === undefined || score > best.score) best = { score, line, box };
      }
    }
    if (best === undefined) return [];
    boxes.push(best.box);
    return [{ series, line: best.line }];
  });
}

/** "case pressure" is "case" in a panel of pressures, "exhaust duct at the window" the duct. */
export function shortLabel(label: string): string {
  const short = label.replace(/ pressure$| at the .*$|, .*$| in the cylinder$/i, '');
  return short.charAt(0).toLowerCase() + short.slice(1);
}

/** Tint of a series by what it speaks of. */
export function tintOfSeries(id: string): Tint {
  if (/exhaust|duct|muffler/.test(id)) return 'exhaust';
  if (/transfer|passage/.test(id)) return 'transfer';
  if (/intake|tract|reed|air/.test(id)) return 'intake';
  return 'ink';
}

/** How a line is drawn where all of a panel have one tint: free dashed, the small end dotted. */
export function dashOfSeries(id: string): string {
  if (id.endsWith('_free')) return 'dashed';
  return id === 'small_end' ? 'dotted' : '';
}

export interface Row {
  kind: string;
  label: string;
  from: number;
  to: number;
}

/** Open windows as stretches of the ruler; what passes its end comes in two. */
export function windowRows(windows: readonly { kind: string; label: string; opens_deg: number; closes_deg: number }[]): Row[] {
  return windows.flatMap((window) =>
    spans({ opens_deg: window.opens_deg, closes_deg: onRuler(window.closes_deg) }).map((span) => ({ kind: window.kind, label: window.label, ...span })),
  );
}
