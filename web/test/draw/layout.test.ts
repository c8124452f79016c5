import { describe, expect, it } from 'vitest';

import { areaFrame, areaLabels, areaPath, areaTicks, openSentence, spanLines, spanRows } from '../../src/draw/areas';
import { bare, boreFrame, boreX, boreY, dropOf, narrow, placeX, wide, windowPath } from '../../src/draw/bore_frame';
import { chordLine, freeEnd, levels, portLabels, wallLine } from '../../src/draw/bore_labels';
import { balloons, findingMarks } from '../../src/draw/bore_marks';
import { detail } from '../../src/draw/detail';
import { lettered } from '../../src/draw/finding_shapes';
import { boxOf, type Lettered, overlap } from '../../src/draw/lettering';
import { pieces } from '../../src/draw/path';
import { bore, names, study } from './samples';

const widths = [620, 700, 860, 1100];

function clash(lines: readonly Lettered[]): string[] {
  const out: string[] = [];
  lines.forEach((a, k) => lines.slice(k + 1).forEach((b) => overlap(boxOf(a), boxOf(b)) && out.push(`${a.text} / ${b.text}`)));
  return out;
}

describe('the frame of the bore', () => {
  it('spans the wall from seam to seam at one scale', () => {
    const one = bore();
    const frame = boreFrame(one, 860, wide)!;
    expect(boreX(frame, 0)).toBe(frame.left);
    expect(boreX(frame, one.around_mm!)).toBeCloseTo(frame.right, 9);
    expect(boreY(frame, 10) - boreY(frame, 0)).toBeCloseTo(boreX(frame, 10) - boreX(frame, 0), 9);
    expect(dropOf(frame, boreY(frame, 12.34))).toBeCloseTo(12.34, 9);
    expect(frame.base).toBeCloseTo(boreY(frame, one.base_mm!), 9);
  });

  it('puts an angle round the bore where the windows of that angle are', () => {
    for (const name of names) {
      const one = bore(name);
      const frame = boreFrame(one, 860, wide)!;
      for (const window of one.windows) expect(placeX(one, frame, window.centre_deg)).toBeCloseTo(boreX(frame, window.middle_mm), 3);
    }
  });

  it('places a window path inside the box the program says', () => {
    for (const name of names) {
      const one = bore(name);
      const frame = boreFrame(one, 860, wide)!;
      for (const window of one.windows) {
        const ends = pieces(windowPath(frame, window.path)).filter((piece) => piece.command !== 'Z').map((piece) => piece.values.slice(-2) as [number, number]);
        expect(Math.min(...ends.map(([x]) => x))).toBeCloseTo(boreX(frame, window.x_mm), 1);
        expect(Math.max(...ends.map(([, y]) => y))).toBeCloseTo(boreY(frame, window.y_mm + window.h_mm), 1);
      }
    }
  });

  it('is none while the bore is not read or the screen too narrow', () => {
    expect(boreFrame({ ...bore(), around_mm: undefined as unknown as number }, 860)).toBeUndefined();
    expect(boreFrame(bore(), 100)).toBeUndefined();
  });

  it('shows a value without its unit', () => {
    expect([bare('36.54 mm (1 439 thou)'), bare('28.00 mm'), bare('about 3 mm'), bare('—')]).toEqual(['36.54', '28.00', '3', '—']);
  });
});

describe('lettering of the bore', () => {
  it.each(names.flatMap((name) => widths.map((width) => [name, width] as const)))('does not run into itself: %s at %i', (name, width) => {
    const one = bore(name);
    const frame = boreFrame(one, width, wide)!;
    const labels = portLabels(one, frame);
    const heights = levels(one, frame);
    const chord = chordLine(one, frame);
    const wall = wallLine(one, frame, heights);
    const lines = [...labels.flatMap((label) => (label.place.text === '' ? [label.name] : [label.name, label.place])), ...heights.map((level) => level.text)];
    if (chord !== undefined) lines.push(chord.text);
    if (wall !== undefined) lines.push(wall.text);
    expect(clash(lines)).toEqual([]);
    for (const label of labels) {
      const box = boxOf(label.name);
      expect(box.x).toBeGreaterThanOrEqual(0);
      expect(box.x + box.w).toBeLessThanOrEqual(width);
    }
  });

  it.each(names)('fits the names on a phone in two rows: %s', (name) => {
    const one = bore(name);
    const frame = boreFrame(one, 328, narrow)!;
    expect(clash(portLabels(one, frame, 14).map((label) => label.name))).toEqual([]);
  });

  it('keeps words at the crown out of the windows', () => {
    const one = bore('bore.spruce-92');
    const frame = boreFrame(one, 860, wide)!;
    const boost = one.windows.find((window) => window.kind === 'boost')!;
    const y = boreY(frame, boost.y_mm + 2);
    const end = freeEnd(one, frame, 60, y - 14, y)!;
    const beside = one.windows.filter((window) => boreY(frame, window.y_mm) < y && boreY(frame, window.y_mm + window.h_mm) > y - 14);
    expect(beside.length).toBeGreaterThan(0);
    expect(freeEnd(one, frame, 400, y - 14, y)).toBeUndefined();
    for (const window of beside) {
      const [from, to] = [boreX(frame, window.x_mm), boreX(frame, window.x_mm + window.w_mm)];
      expect(end <= from || end - 60 >= to).toBe(true);
    }
  });

  it('sets marks of findings and balloons of cuts apart', () => {
    for (const [b, s] of [['bore', 'study'], ['bore.spruce-92', 'study.spruce-92'], ['bore.larch-70.cut', 'study.larch-70.cut']] as const) {
      const one = bore(b);
      const frame = boreFrame(one, 860, wide)!;
      const marks = findingMarks(one, frame, lettered(study(s).findings));
      marks.forEach((a, k) => marks.slice(k + 1).forEach((c) => expect(Math.hypot(a.x - c.x, a.y - c.y)).toBeGreaterThan(24)));
      const cuts = [1, 2, 3].map((number) => ({ number, target: 'exhaust', edge: 'roof' }));
      const all = balloons(one, frame, cuts);
      all.forEach((a, k) => all.slice(k + 1).forEach((c) => expect(Math.abs(a.x - c.x)).toBeGreaterThan(28)));
    }
  });

  it('puts the detail circle over no window, or leaves it out', () => {
    for (const name of names.filter((one) => one.endsWith('.cut'))) {
      const one = bore(name);
      const frame = boreFrame(one, 620, wide)!;
      const big = detail(one, frame, one.windows.find((window) => window.kind === 'exhaust'));
      if (big === undefined) continue;
      for (const window of one.windows) {
        const x = Math.max(boreX(frame, window.x_mm), Math.min(big.cx, boreX(frame, window.x_mm + window.w_mm)));
        const y = Math.max(boreY(frame, window.y_mm), Math.min(big.cy, boreY(frame, window.y_mm + window.h_mm)));
        expect(Math.hypot(x - big.cx, y - big.cy)).toBeGreaterThanOrEqual(big.radius);
      }
    }
  });
});

describe('areas over the turn', () => {
  it.each(names)('draw every area closed on its base line: %s', (name) => {
    const one = bore(name);
    const frame = areaFrame(one.areas, 66, 804, 50, 150);
    for (const area of one.areas.filter((candidate) => candidate.mm2.some((value) => value > 0))) {
      const path = areaPath(area, frame);
      expect(path.startsWith('M')).toBe(true);
      expect(path.endsWith('Z')).toBe(true);
      const ys = pieces(path).filter((piece) => piece.command !== 'Z').map((piece) => piece.values[1]!);
      expect(Math.max(...ys)).toBeCloseTo(150, 0);
      expect(Math.min(...ys)).toBeGreaterThanOrEqual(50);
    }
  });

  it.each(names)('names and dimensions do not run into each other: %s', (name) => {
    const one = bore(name);
    const rough = areaFrame(one.areas, 66, 804, 0, 104);
    const rows = spanRows(spanLines(one.events, rough), rough);
    const frame = areaFrame(one.areas, 66, 804, 8 + rows * 21, 112 + rows * 21);
    const lines = spanLines(one.events, frame);
    expect(clash(lines.map((line) => line.text))).toEqual([]);
    expect(clash(areaLabels(one.areas, frame).map((label) => label.line))).toEqual([]);
    for (const line of lines) expect(boxOf(line.text).y).toBeGreaterThanOrEqual(-4);
    expect(areaTicks(frame).length).toBeGreaterThan(1);
  });

  it.each(names.flatMap((name) => [282, 322].map((width) => [name, width] as const)))('dimensions do not run into each other on a phone either: %s at %i', (name, width) => {
    const one = bore(name);
    const frame = areaFrame(one.areas, 30, width, 100, 200);
    expect(clash(spanLines(one.events, frame).map((line) => line.text))).toEqual([]);
  });

  it('says what is open from the tables', () => {
    const text = openSentence(bore().areas, 134);
    expect(text).toMatch(/^Exhaust open by \d+ % of its \d+\.\d\d cm², /);
    expect(text).toMatch(/rear shut\.$/);
    expect(openSentence(bore().areas, 0)).toMatch(/^Exhaust shut/);
  });
});
