// Open areas over the turn on the crank's ruler, and the dimensions of what is open.

import type { BoreArea, BoreEvent } from '../made/bore';
import { at, onRuler, rulerX, spans, turn } from './crank';
import { type Lettered, textWidth } from './lettering';
import { chain } from './path';
import { numberText, roundStep } from './ticks';

export interface AreaFrame {
  left: number;
  right: number;
  /** y of no area and of the greatest */
  floor: number;
  top: number;
  /** greatest area of the axis [mm2] */
  most: number;
}

/** The frame: the axis ends at the greatest area there is, of stock too. */
export function areaFrame(all: readonly BoreArea[], left: number, right: number, top: number, floor: number): AreaFrame {
  const most = Math.max(1, ...all.flatMap((area) => area.mm2));
  return { left, right, floor, top, most: most * 1.04 };
}

export const areaY = (frame: AreaFrame, mm2: number): number => frame.floor - (mm2 / frame.most) * (frame.floor - frame.top);

/** Closed paths of an area over the turn, one for each stretch in which something is open. */
export function areaPath(area: BoreArea, frame: AreaFrame, closed = true): string {
  const out: string[] = [];
  let run: { x: number; y: number }[] = [];
  const end = () => {
    if (run.length > 2) out.push(chain(run, closed));
    run = [];
  };
  const point = (degrees: number, value: number) => ({ x: rulerX(degrees, frame.left, frame.right), y: areaY(frame, value) });
  for (let degrees: number = turn.from; degrees <= turn.to; ++degrees) {
    const value = at(area.mm2, degrees);
    const before = at(area.mm2, degrees - 1);
    if (value > 0) {
      if (run.length === 0) run.push(point(Math.max(turn.from, degrees - 1), degrees === turn.from ? 0 : before));
      run.push(point(degrees, value));
    } else if (run.length > 0) {
      run.push(point(degrees, 0));
      end();
    }
  }
  if (run.length > 0) run.push(point(turn.to, 0));
  end();
  return out.join('');
}

/** Areas with the greatest behind, so that none hides another. */
export function backToFront<A extends { mm2: readonly number[] }>(areas: readonly A[]): A[] {
  const most = (area: A) => Math.max(0, ...area.mm2);
  return [...areas].sort((a, b) => most(b) - most(a));
}

/** Round marks of the area's axis [mm2], in cm2. */
export function areaTicks(frame: AreaFrame): { y: number; text: string }[] {
  const step = roundStep(frame.most, 4);
  const out: { y: number; text: string }[] = [];
  for (let value = step; value <= frame.most * (1 + 1e-9); value += step) {
    out.push({ y: areaY(frame, value), text: numberText(value / 100, step < 100 ? 1 : 0) });
  }
  return out;
}

export interface AreaLabel {
  area: BoreArea;
  line: Lettered;
}

const count = ['', '', 'two', 'three', 'four', 'five', 'six'];

/** Names on the areas: the greatest of those about one dead centre on its flank, the others under their tops. */
export function areaLabels(areas: readonly BoreArea[], frame: AreaFrame): AreaLabel[] {
  const out: AreaLabel[] = [];
  const size = 15;
  for (const centre of [0, 180]) {
    const about = backToFront(areas.filter((area) => nearest(area) === centre));
    let y = frame.top - 20;
    about.forEach((area, k) => {
      const text = area.windows > 1 ? `${area.label}, ${count[area.windows] ?? area.windows}` : area.label;
      const most = Math.max(...area.mm2);
      if (!(most > 0)) return;
      if (k === 0 && about.length > 1) {
        const degrees = flank(area, most * 0.86);
        const line: Lettered = { text, x: rulerX(degrees, frame.left, frame.right) - 4, y: areaY(frame, most * 0.86) + 4, size, anchor: 'start' };
        const room = frame.right - textWidth(text, size);
        out.push({ area, line: { ...line, x: Math.min(line.x, room) } });
        return;
      }
      y = Math.max(y + 19, areaY(frame, most) + (about.length === 1 ? Math.min(34, (frame.floor - areaY(frame, most)) / 2 + 6) : 18));
      if (y > frame.floor - 3) return;
      out.push({ area, line: { text, x: rulerX(centre, frame.left, frame.right), y, size, anchor: 'middle' } });
    });
  }
  return out;
}

/** The dead centre about which an area stands open. */
function nearest(area: BoreArea): 0 | 180 {
  return (area.mm2[0] ?? 0) > (area.mm2[180] ?? 0) ? 0 : 180;
}

/** The last angle at which an area still has so much. */
function flank(area: BoreArea, least: number): number {
  for (let degrees = turn.to; degrees > turn.from; --degrees) if (at(area.mm2, degrees) >= least) return degrees;
  return turn.to;
}

export interface Span {
  event: BoreEvent;
  from: number;
  to: number;
  y: number;
  text: Lettered;
  outside: boolean;
}

/** How far the words of a dimension go, which on a narrow screen is past its line. */
function reach({ text }: Span): { left: number; right: number } {
  const half = textWidth(text.text, text.size) / 2;
  return { left: text.x - half, right: text.x + half };
}

/** Dimension lines of what is open, the longest highest, none on another; blowdown beside its own. */
export function spanLines(events: readonly BoreEvent[], frame: AreaFrame, size = 15): Span[] {
  const long = events.filter((event) => event.kind !== 'blowdown' && event.kind !== 'free_port');
  const once = long.filter((event, k) => long.findIndex((one) => one.kind === event.kind && Math.abs(one.opens_deg - event.opens_deg) < 0.05) === k);
  const first = once.filter((event, k) => once.findIndex((one) => one.kind === event.kind) === k);
  const lines: Span[] = [];
  const rows: Span[][] = [];
  for (const event of [...first].sort((a, b) => a.duration_deg - b.duration_deg)) {
    const span = spans(event).sort((a, b) => b.to - b.from - (a.to - a.from))[0];
    if (span === undefined) continue;
    const from = rulerX(span.from, frame.left, frame.right);
    const to = rulerX(span.to, frame.left, frame.right);
    const width = textWidth(event.short_text, size);
    const middle = Math.max(frame.left + width / 2, Math.min(frame.right - width / 2, (from + to) / 2));
    const [left, right] = [Math.min(from, middle - width / 2), Math.max(to, middle + width / 2)];
    const row = rows.findIndex((others) => others.every((one) => right < Math.min(one.from, reach(one).left) - 8 || left > Math.max(one.to, reach(one).right) + 8));
    const level = row === -1 ? rows.length : row;
    const y = frame.top - 12 - level * 21;
    const line: Span = { event, from, to, y, outside: false, text: { text: event.short_text, x: middle, y: y - 5, size, anchor: 'middle' } };
    if (row === -1) rows.push([line]);
    else rows[row]!.push(line);
    lines.push(line);
  }
  const blowdown = frame.right - frame.left < 420 ? undefined : events.find((event) => event.kind === 'blowdown');
  if (blowdown !== undefined) {
    const from = rulerX(onRuler(blowdown.opens_deg), frame.left, frame.right);
    const to = rulerX(onRuler(blowdown.closes_deg), frame.left, frame.right);
    const y = frame.top + 16;
    lines.push({ event: blowdown, from, to, y, outside: to - from < 30, text: { text: blowdown.short_text, x: from - (to - from < 30 ? 24 : 6), y: y + 5, size, anchor: 'end' } });
  }
  return lines;
}

/** How many rows of dimensions stand over the areas. */
export function spanRows(lines: readonly Span[], frame: AreaFrame): number {
  return lines.reduce((most, line) => Math.max(most, line.y < frame.top ? Math.round((frame.top - 12 - line.y) / 21) + 1 : 0), 0);
}

/** What stands open at an angle, in words, from the tables alone. */
export function openSentence(areas: readonly BoreArea[], degrees: number): string {
  const said = areas.map((area) => {
    const now = at(area.mm2, degrees);
    const most = Math.max(0, ...area.mm2);
    if (!(most > 0)) return `${area.label} never open`;
    if (!(now > 0)) return `${area.label} shut`;
    const share = Math.round((now / most) * 100);
    return share >= 100 ? `${area.label} wide open` : `${area.label} open by ${share} % of its ${numberText(most / 100, 2)} cm\u00b2`;
  });
  const text = said.join(', ');
  return text === '' ? '' : `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;
}
