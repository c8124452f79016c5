import { describe, expect, it } from 'vitest';

import { changeSteps, fieldOf, heatFrame, heatSteps, hotterPath, inWindow, levelLines, levelsOf, placeOn, shares, type Field } from '../../src/draw/heat_field';
import { changeSentence, effectRows, heatChanges, heatFigures, heatSentence, heatWaits, placeRows, rangeScale, shareRows } from '../../src/draw/heat_words';
import { boxOf, overlap } from '../../src/draw/lettering';
import { pieces } from '../../src/draw/path';
import type { HeatAnswer } from '../../src/made/heat';
import { bore, read } from './samples';

const bare = read('heat') as HeatAnswer; // no spot was read
const calibrated = read('heat.cut') as HeatAnswer;
const larch = bore('bore.larch-70');

/** A hill on a plain of 12 by 12, highest in the middle. */
const hill: Field = (() => {
  const x = Array.from({ length: 13 }, (_, k) => k);
  return { x, y: x, values: x.flatMap((j) => x.map((i) => 10 - Math.hypot(i - 6, j - 6))) };
})();

/** Area that rings enclose. */
function area(path: string): number {
  let sum = 0;
  let start = { x: 0, y: 0 };
  let last = start;
  for (const { command, values } of pieces(path)) {
    const next = command === 'Z' ? start : { x: values[0]!, y: values[1]! };
    if (command === 'M') start = next;
    else sum += last.x * next.y - next.x * last.y;
    last = next;
  }
  return Math.abs(sum / 2);
}

describe('lines of equal heat', () => {
  it('run round a hill as one ring, at the same height all along', () => {
    const lines = levelLines(hill, 6);
    expect(lines.length).toBe(1);
    const [ring] = lines;
    expect(ring![0]!.x).toBeCloseTo(ring!.at(-1)!.x, 6);
    for (const { x, y } of ring!) expect(Math.hypot(x - 6, y - 6)).toBeCloseTo(4, 0);
    expect(levelLines(hill, 11)).toEqual([]);
  });

  it('part a saddle by the mean of its cell', () => {
    const saddle = (middle: number): Field => ({ x: [0, 1], y: [0, 1], values: [1, 0, 0, middle] });
    expect(levelLines(saddle(1), 0.49).length).toBe(2);
    expect(levelLines(saddle(1), 0.51).length).toBe(2);
    const [a] = levelLines(saddle(1), 0.49);
    const [b] = levelLines(saddle(1), 0.51);
    expect(a!.map((one) => one.x + one.y).sort()).not.toEqual(b!.map((one) => one.x + one.y).sort());
  });

  it('close at the edge, so that all that is hotter can be filled', () => {
    expect(area(hotterPath(hill, 6))).toBeCloseTo(Math.PI * 16, -0.7);
    expect(area(hotterPath(hill, 6))).toBeGreaterThan(area(hotterPath(hill, 7)));
    expect(area(hotterPath(hill, -100))).toBeCloseTo(144, -1.5);
    const slope: Field = { x: [0, 1, 2], y: [0, 1], values: [0, 1, 2, 0, 1, 2] };
    expect(area(hotterPath(slope, 1))).toBeCloseTo(1, 0);
  });
});

describe('the map of heat', () => {
  for (const width of [288, 340, 846])
    it(`parts the wall by shares that are hotter, at ${width} px`, () => {
      const grid = bare.map!;
      const frame = heatFrame(larch, grid, width, width < 600)!;
      const levels = levelsOf(larch, frame, grid);
      expect(levels).toEqual([...levels].sort((a, b) => b - a));
      const metal = grid.over_mean.filter((_, k) => {
        const x = frame.left + ((((((k % grid.around) + 0.5) * 360) / grid.around + 135) % 360) / 360) * (frame.right - frame.left);
        return !inWindow(larch, frame, { x, y: frame.top + (Math.floor(k / grid.around) + 0.5) * grid.row_mm * frame.scale });
      });
      expect(metal.length).toBeLessThan(grid.over_mean.length);
      levels.forEach((level, k) => expect(metal.filter((value) => value > level).length / metal.length).toBeCloseTo(shares[k]!, 2));
    });

  it('goes round the bore without a break: the seam has the same heat on both sides', () => {
    const grid = bare.map!;
    const frame = heatFrame(larch, grid, 846, false)!;
    const field = fieldOf(larch, frame, grid);
    const n = field.x.length;
    expect(field.x).toEqual([...field.x].sort((a, b) => a - b));
    expect(field.x[0]!).toBeLessThanOrEqual(frame.left);
    expect(field.x.at(-1)!).toBeGreaterThanOrEqual(frame.right);
    field.y.forEach((_, j) => expect(field.values[j * n]).toBe(field.values[j * n + n - 2]));
  });

  it('has its hottest place where the answer says, at the exhaust roof', () => {
    const grid = calibrated.map!;
    const frame = heatFrame(larch, grid, 846, false)!;
    const first = calibrated.places.find((place) => place.part === 'cylinder' && place.rank === 1)!;
    const at = placeOn(larch, frame, first)!;
    const exhaust = larch.windows.find((window) => window.kind === 'exhaust')!;
    expect(Math.abs(at.x - (frame.left + exhaust.middle_mm * frame.scale))).toBeLessThan(12);
    const field = fieldOf(larch, frame, grid);
    const most = field.values.indexOf(Math.max(...field.values));
    expect(Math.hypot(field.x[most % field.x.length]! - at.x, field.y[Math.floor(most / field.x.length)]! - at.y)).toBeLessThan(14);
    expect(placeOn(larch, frame, { angle_deg: null, drop_mm: null })).toBeUndefined();
  });

  it('labels its lines clear of windows and of one another, with no temperature and no bare difference', () => {
    for (const width of [288, 340, 846]) {
      const frame = heatFrame(larch, bare.map!, width, width < 600)!;
      const steps = heatSteps(larch, frame, bare.map!);
      expect(steps.map((step) => step.name)).toEqual(['75 %', '50 %', '25 %', '10 %']);
      const labels = steps.flatMap((step) => step.label ?? []);
      expect(labels.length).toBeGreaterThan(1);
      labels.forEach((label, k) => {
        expect(label.text).toMatch(/^\d+ %$/);
        for (const other of labels.slice(k + 1)) expect(overlap(boxOf(label), boxOf(other))).toBe(false);
        const box = boxOf(label);
        expect(box.x).toBeGreaterThanOrEqual(frame.left);
        expect(box.x + box.w).toBeLessThanOrEqual(frame.right);
      });
    }
  });
});

describe('the map of a change', () => {
  const grid = calibrated.map!;
  const frame = heatFrame(larch, grid, 846, false)!;
  const change = (of: (value: number, k: number) => number) => ({ ...grid, over_mean: grid.over_mean.map(of) });

  it('has lines at round numbers, nothing bold, hotter shaded, cooler dashed', () => {
    const steps = changeSteps(larch, frame, change((value) => value / 20));
    const zero = steps.find((step) => step.name === '0')!;
    expect(zero.kind).toBe('bold');
    expect(steps.filter((step) => step.name.startsWith('\u2212')).every((step) => step.kind === 'dashed' && step.path === '')).toBe(true);
    const hotter = steps.filter((step) => step.name.startsWith('+'));
    expect(hotter.length).toBeGreaterThan(1);
    expect(hotter.every((step) => step.kind === 'thin' && step.path !== '' && step.shade >= 1 && step.shade <= 4)).toBe(true);
    expect(hotter.at(-1)!.shade).toBeGreaterThan(zero.shade);
  });

  it('shades nothing where all gets cooler, and has no line at nothing', () => {
    const steps = changeSteps(larch, frame, change((_, k) => -1 - (k % 72) / 10));
    expect(steps.some((step) => step.name === '0' || step.path !== '')).toBe(false);
    expect(steps.length).toBeGreaterThan(1);
  });

  it('is told by the places that are told apart', () => {
    expect(changeSentence(calibrated)).toMatch(/^Gets hotter most: head, plug seat, \+[\d.]+ K \(.*\)\. Gets cooler most: [a-z0, ]+, \u2212[\d.]+ K \(.*\)\.$/);
    expect(changeSentence(bare)).toBe('No place of the cylinder is told apart from stock.');
  });
});

/** All that the page says of an answer. */
const said = (answer: HeatAnswer): string =>
  JSON.stringify([
    ...(['cylinder', 'piston'] as const).flatMap((part) => placeRows(answer, part).map(({ name, over, change, degrees }) => [name, over, change, degrees])),
    heatFigures(answer).map((figure) => [figure.label, figure.text, figure.low_text, figure.high_text, figure.stock_text, figure.value]),
    effectRows(answer),
    shareRows(answer),
    heatSentence(answer),
    changeSentence(answer),
    heatChanges(answer),
    answer.promise,
  ]);
const degree = /\u00b0|\d\s?C\b/;

describe('words of heat', () => {
  it('never say a degree without a spot that was read, whatever the answer holds', () => {
    expect(bare.calibrated).toBe(false);
    expect(said(bare)).not.toMatch(degree);
    const slipped: HeatAnswer = { ...calibrated, calibrated: false, promise: bare.promise };
    expect(JSON.stringify(slipped)).toMatch(degree);
    expect(said(slipped)).not.toMatch(degree);
    expect(heatFigures(slipped).find((figure) => figure.id === 'heat.hottest')!.waits_for).toEqual(['readings.spot']);
    expect(heatFigures(slipped).find((figure) => figure.id === 'heat.growth')!.value).not.toBeNull();
  });

  it('say degrees with their range where one was read', () => {
    expect(calibrated.calibrated).toBe(true);
    for (const row of placeRows(calibrated, 'cylinder')) expect(row.degrees).toMatch(/^\d+ \u00b0C \(\d+ to \d+\)$/);
    expect(heatSentence(calibrated)).toMatch(/^Hottest: exhaust roof, \d+ to \d+ K above the mean of the bore's wall, \d+ \u00b0C/);
  });

  it('put the hottest first, and give every difference its range', () => {
    for (const answer of [bare, calibrated])
      for (const part of ['cylinder', 'piston'] as const) {
        const rows = placeRows(answer, part);
        expect(rows.map((row) => row.rank)).toEqual(rows.map((_, k) => k + 1));
        for (const row of rows)
          for (const text of [row.over, ...(row.change === '' ? [] : [row.change])]) expect(text).toMatch(/^[+\u2212][\d.]+ K \([+\u2212]?[\d.]+ to [+\u2212]?[\d.]+\)$|^not told apart$/);
      }
    expect(placeRows(bare, 'cylinder').every((row) => row.change === '')).toBe(true);
  });

  it('have an axis that holds every range and nothing', () => {
    const rows = effectRows(calibrated).flatMap((effect) => effect.rows);
    const scale = rangeScale(rows);
    expect(scale.low).toBeLessThanOrEqual(0);
    for (const one of rows) expect(one.low >= scale.low && one.high <= scale.high).toBe(true);
    expect(rangeScale([])).toEqual({ low: -1, high: 1 });
    expect(shareRows(calibrated)[0]!.text).toMatch(/^\d+ to \d+ %$/);
  });

  it('tell with cuts what they change, each with its range or as not told apart', () => {
    const rows = heatChanges(calibrated);
    expect(rows.map((row) => row.name)).toEqual(['Hottest, exhaust roof', 'Ring groove', 'Room of the skirt, hot less cold']);
    for (const row of rows) expect(row.text).toMatch(row.apart ? /^[+\u2212][\d.]+ (K|mm) \([+\u2212][\d.]+ to [+\u2212][\d.]+\)$/ : /^not told apart$/);
    expect(heatChanges(bare)).toEqual([]);
    expect(JSON.stringify(heatChanges({ ...calibrated, calibrated: false }))).not.toMatch(degree);
  });

  it('lead to the fields that heat waits for', () => {
    expect(heatWaits(['cooling.fins', ''])).toEqual(['cooling.fins.1.from']);
    expect(heatWaits(['crank.bore'])).toEqual(['crank.bore']);
  });
});
