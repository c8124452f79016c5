import { describe, expect, it } from 'vitest';

import { aimBands, aimSentence } from '../../src/draw/aim_bands';
import { arrow } from '../../src/draw/arrow';
import { curveFrame, curveLevels, curveLine, endLabels, nearestPoint, type Point, shared, speedOf, speedX } from '../../src/draw/curve';
import { changeRow, digitsFor, placesOf, printed, signed } from '../../src/draw/figure_text';
import { letterOf, lettered, outline } from '../../src/draw/finding_shapes';
import { gap, gapScale } from '../../src/draw/gaps';
import { gapRows } from '../../src/draw/gap_rows';
import { hatchId, hatchOf, tile, tintOf } from '../../src/draw/hatches';
import { textWidth } from '../../src/draw/lettering';
import { groupedFigures, pageFigures, shortName } from '../../src/draw/page_of_figures';
import { chain, placed } from '../../src/draw/path';
import { pressed, rule, ruleValue, ruleX } from '../../src/draw/rule';
import { fits, spread } from '../../src/draw/spread';
import { amounts, ghosts, isStale } from '../../src/draw/stale';
import { amountText, put, sent, typedAmount } from '../../src/draw/steps';
import { decimals, multiples, numberText, roundStep, ticks } from '../../src/draw/ticks';
import { lineLabels, panels, traceFrame, traceLabels, windowRows, type Series } from '../../src/draw/traces';
import type { Step } from '../../src/made/steps';
import { boxOf, overlap } from '../../src/draw/lettering';
import { read, study } from './samples';

describe('paths', () => {
  it('keep arcs arcs: one scale for both radii, flags untouched', () => {
    expect(placed('M1 2 L3 2 A1.5 1.5 0 0 1 4.5 3.5 Z', { scale: 2, dx: 10, dy: 20 })).toBe('M12 24L16 24A3 3 0 0 1 19 27Z');
  });

  it('take further pairs after a move as lines, and H and V', () => {
    expect(placed('M0 0 1 1 H5 V7', { scale: 1, dx: 1, dy: 2 })).toBe('M1 2L2 3H6V9');
  });

  it('refuse what they cannot place', () => {
    expect(() => placed('M0 0 l1 1', { scale: 1, dx: 0, dy: 0 })).toThrow(/absolute/);
  });

  it('chain points', () => {
    expect(chain([{ x: 0, y: 0 }, { x: 1.234, y: 2 }], true)).toBe('M0 0L1.23 2Z');
  });
});

describe('ticks', () => {
  it('are 1, 2, 5 times a power of ten, no more than asked', () => {
    for (const span of [0.37, 1, 7.2, 60, 999, 12345]) {
      const step = roundStep(span, 5);
      expect(span / step).toBeLessThanOrEqual(5 + 1e-9);
      expect(span / step).toBeGreaterThan(1.9);
      expect([1, 2, 5, 10]).toContain(Math.round(step / 10 ** Math.floor(Math.log10(step) + 1e-9)));
    }
  });

  it('hit both ends when they are round', () => {
    expect(ticks(0, 5, 5)).toEqual([0, 1, 2, 3, 4, 5]);
    expect(multiples(-0.3, 0.3, 0.1)).toEqual([-0.3, -0.2, -0.1, 0, 0.1, 0.2, 0.3]);
    expect(ticks(4000, 12000, 8)).toHaveLength(9);
  });

  it('print with a real minus and thin blanks', () => {
    expect([numberText(12500, 0), numberText(-0.45, 2), numberText(-0.001, 2), numberText(1234.5, 1)]).toEqual(['12\u202f500', '\u22120.45', '0.00', '1\u202f234.5']);
    expect([decimals(1), decimals(0.5), decimals(0.02), decimals(20)]).toEqual([0, 1, 2, 0]);
  });
});

describe('hatches', () => {
  it('tell kinds and ranks apart', () => {
    expect(['exhaust', 'intake', 'boost', 'air'].map((kind) => hatchOf(kind))).toEqual(['upright', 'level', 'rings', 'waves']);
    expect([0, 1, 2, 3].map((rank) => hatchOf('transfer', rank))).toEqual(['dots', 'crosses', 'squares', 'squares']);
  });

  it('give all transfers one tint', () => {
    expect(['transfer', 'boost', 'exhaust', 'intake', 'air', 'odd'].map(tintOf)).toEqual(['transfer', 'transfer', 'exhaust', 'intake', 'intake', 'ink']);
  });

  it('lie at 45 degrees for metal only', () => {
    const slanted = (lines: string) => /L/.test(lines);
    for (const metal of ['piston', 'cylinder', 'limit', 'metal_to_go'] as const) expect(slanted(tile(metal).lines)).toBe(true);
    for (const open of ['upright', 'dots', 'crosses', 'squares', 'rings', 'level', 'waves'] as const) expect(slanted(tile(open).lines)).toBe(false);
  });

  it('have names of their own in every drawing', () => {
    expect(hatchId('a', 'dots', 'transfer')).not.toBe(hatchId('b', 'dots', 'transfer'));
    expect(hatchId('a', 'dots')).not.toBe(hatchId('a', 'dots', 'blue'));
  });
});

describe('labels in a row', () => {
  it('stay where they want when there is room', () => {
    expect(spread([{ at: 50, width: 20 }, { at: 100, width: 20 }], 4, 0, 200)).toEqual([50, 100]);
  });

  it('part evenly about a place that several want', () => {
    expect(spread([{ at: 50, width: 20 }, { at: 50, width: 20 }], 4, 0, 200)).toEqual([38, 62]);
  });

  it('never touch nor leave their room, in any crowd that fits', () => {
    const wanted = [10, 12, 14, 90, 92, 190, 199].map((at) => ({ at, width: 22 }));
    const middles = spread(wanted, 3, 0, 200);
    const sorted = middles.map((at, k) => ({ at, w: wanted[k]!.width })).sort((a, b) => a.at - b.at);
    sorted.slice(1).forEach((one, k) => expect(one.at - one.w / 2 - (sorted[k]!.at + sorted[k]!.w / 2)).toBeGreaterThanOrEqual(3 - 1e-9));
    expect(sorted[0]!.at - 11).toBeGreaterThanOrEqual(-1e-9);
    expect(sorted.at(-1)!.at + 11).toBeLessThanOrEqual(200 + 1e-9);
    expect(fits(wanted, 3, 0, 200)).toBe(true);
    expect(fits(wanted, 10, 0, 200)).toBe(false);
  });
});

describe('figures', () => {
  const figure = { value: 104.76, unit: 'deg', text: '104.8 deg', low: 104.49, high: 105.16 };

  it('part value, unit and range with one last digit', () => {
    expect(printed(figure)).toEqual({ value: '104.8', unit: '°', beside: '', low: '104.5', high: '105.2' });
    expect(printed({ value: 0.535, unit: 'mm', text: '0.54 mm (21 thou)', low: 0.4877, high: 0.5837 })).toEqual({ value: '0.54', unit: 'mm', beside: '21 thou', low: '0.49', high: '0.58' });
  });

  it('take the texts of the program where it prints them', () => {
    expect(printed({ ...figure, low_text: '104 deg', high_text: '106 deg' })).toMatchObject({ low: '104', high: '106' });
  });

  it('show no range in another unit than the value', () => {
    expect(printed({ value: 6.58e-7, unit: 's m2', text: '0.658 s mm²', low: 6.4e-7, high: 6.75e-7 })).toMatchObject({ value: '0.658', unit: 's mm²', low: '', high: '' });
  });

  it('leave words as they are', () => {
    expect(printed({ value: 1, unit: '-', text: 'yes', low: null, high: null })).toMatchObject({ value: 'yes', unit: '', low: '', high: '' });
    expect(printed({ value: 2.28, unit: 'kW', text: 'about 1.6 to 3.0 kW', low: 1.6, high: 3 })).toMatchObject({ value: 'about 1.6 to 3.0', unit: 'kW' });
  });

  it('show a change in three parts', () => {
    const row = changeRow({ ...figure, stock: { value: 106.5, low: 106, high: 107 }, change: { value: -1.766, low: -1.9, high: -1.63, distinguishable: true } })!;
    expect(row).toMatchObject({ stock: '106.5', change: '\u22121.8', apart: true });
  });

  it('say no sign and no number for what is not told apart', () => {
    const row = changeRow({ ...figure, stock: { value: 104.8, low: 104, high: 105 }, change: { value: 0.01, low: -0.2, high: 0.2, distinguishable: false } })!;
    expect(row).toMatchObject({ change: '', apart: false });
    expect(changeRow(figure)).toBeUndefined();
  });

  it('have the digits their range allows', () => {
    expect([digitsFor(-0.2, 0.2, 3), digitsFor(-2, 2, 3), digitsFor(-0.02, 0.02, 3), digitsFor(null, 1, 2)]).toEqual([1, 0, 2, 2]);
    expect([placesOf('103.0'), placesOf('17'), signed(0.5, 1), signed(-2, 0), signed(0, 1)]).toEqual([1, 0, '+0.5', '\u22122', '0.0']);
  });

  it('print every figure of the samples with its own value first', () => {
    for (const one of study().figures.filter((candidate) => candidate.value !== null)) {
      const said = printed(one);
      expect(one.text.startsWith(said.value), one.id).toBe(true);
      if (said.low !== '') expect(placesOf(said.low), one.id).toBe(placesOf(said.value));
    }
  });

  it('stand on the page of a builder in the order of the work', () => {
    const page = pageFigures(study().figures, ['exhaust']).map((one) => one.id);
    expect(page[0]).toBe('port.exhaust.opens');
    expect(page).toContain('timing.blowdown');
    expect(page).not.toContain('port.primary.width_of_bore');
    const grouped = groupedFigures(study().figures);
    expect(grouped.flatMap((group) => group.figures)).toHaveLength(study().figures.length);
    expect(shortName({ id: 'squish.clearance', label: 'Squish clearance' })).toBe('Squish');
    expect(shortName({ id: 'port.exhaust.width_of_bore', label: 'Width of exhaust' })).toBe('Exhaust chord');
  });
});

describe('findings', () => {
  it('carry letters without I, O and Q', () => {
    const letters = Array.from({ length: 24 }, (_, k) => letterOf(k));
    expect(letters.slice(0, 9).join('')).toBe('ABCDEFGHJ');
    expect(letters).not.toContain('I');
    expect(letters[23]).toBe('AA');
  });

  it('letter what is not held, in the order given', () => {
    const all = lettered(study().findings);
    expect(all.every((one) => one.finding.state !== 'ok')).toBe(true);
    expect(all.map((one) => one.letter).slice(0, 2)).toEqual(['A', 'B']);
  });

  it('have four shapes that differ', () => {
    expect(new Set((['ok', 'note', 'caution', 'stop'] as const).map(outline)).size).toBe(4);
  });
});

describe('gaps', () => {
  const row = { id: 'a', value: 1.75, low: 1.5, high: 2, stock: 2.2, limit: 1, side: 'least' };

  it('stand clear of the block while the limit holds, inside it when it is passed', () => {
    expect(gap(row, 200, 40).value).toBeCloseTo(26 + 0.75 * 40, 9);
    expect(gap({ ...row, value: 0.6 }, 200, 40).value).toBeLessThan(26);
    expect(gap({ ...row, side: 'most', value: 0.6 }, 200, 40).value).toBeGreaterThan(26);
  });

  it('order the band and hold it in the picture', () => {
    const most = gap({ ...row, side: 'most' }, 200, 40);
    expect(most.low!).toBeLessThan(most.high!);
    const far = gap({ ...row, value: 90 }, 200, 40);
    expect(far.broken).toBe(true);
    expect(far.value).toBeLessThanOrEqual(200);
  });

  it('share one scale with a round number of times', () => {
    const rows = gapRows(study('study.cut'));
    expect(rows.length).toBeGreaterThan(3);
    const times = gapScale(rows, 180) / (96 / 25.4);
    expect([100, 50, 40, 20, 10, 5, 2, 1]).toContain(Math.round(times * 1e6) / 1e6);
  });

  it('begin with the one that is nearest to its limit', () => {
    const left = gapRows(study('study.cut')).map((one) => (one.side.includes('least') ? one.value - one.limit : one.limit - one.value));
    expect(left).toEqual([...left].sort((a, b) => a - b));
  });
});

describe('aims', () => {
  const aim = study().aims.find((one) => one.figure === 'port.exhaust.opens')!;

  it('lay three bands and the value on one scale', () => {
    const bands = aimBands(aim, { value: 104.8, low: 104.5, high: 105.2 }, 92, 32);
    expect(bands.bars.map((bar) => bar.name)).toEqual(['stock', 'work', 'race']);
    expect(bands.value!).toBeGreaterThan(bands.bars[2]!.to);
    expect(bands.bars.every((bar) => bar.from >= 0 && bar.to <= 92 && bar.from < bar.to)).toBe(true);
    expect(aimSentence(aim)).toMatch(/^stock .*, work .*, race /);
  });

  it('leave an open end open', () => {
    const bands = aimBands({ stock: null, work: null, race: { low: null, high: 70, text: 'to 70' } }, { value: 55, low: null, high: null }, 92, 32);
    expect(bands.bars).toMatchObject([{ fromShut: false, toShut: true, from: 0 }]);
  });
});

describe('rules', () => {
  const one = rule(-1.2, 4, 268);

  it('lead from a value to its x and back on a step', () => {
    for (const value of [-1.2, 0, 0.8, 4]) expect(ruleValue(one, ruleX(one, value), 0.1)).toBeCloseTo(value, 9);
    expect(ruleValue(one, 1e4, 0.1)).toBe(4);
  });

  it('set words no nearer than they are wide', () => {
    const words = one.marks.filter((mark) => mark.text !== '');
    words.slice(1).forEach((mark, k) => expect(mark.x - words[k]!.x).toBeGreaterThan((textWidth(mark.text, 14) + textWidth(words[k]!.text, 14)) / 2));
  });

  it('press in steps and stop at the ends', () => {
    expect(pressed(0.8, 0.1, 1, -1.2, 4)).toBe(0.9);
    expect(pressed(3.95, 0.1, 3, -1.2, 4)).toBe(4);
    expect(pressed(0.3, 0.1, -1, 0, 4)).toBe(0.2);
  });
});

describe('steps', () => {
  const step = (change: Partial<Step>): Step => ({
    text: '', act: 'roof exhaust', tail: '', words: '', form: 'change', target: 'exhaust', title: 'Exhaust roof higher', amount: 0.8, amounts: [], unit: 'mm', least: -3, most: 4, step: 0.1, least_says: '', most_says: '', now_text: '', stop_text: '', then_text: '', wheel_stop: '', wheel_then: '', ...change,
  });

  it('are sent as words and amounts, never as a sentence', () => {
    expect(sent(step({}))).toEqual({ act: 'roof exhaust', amount: 0.8, unit: 'mm' });
    expect(sent(step({ act: 'gasket out', form: 'none', amount: undefined as unknown as number, unit: '' }))).toEqual({ act: 'gasket out' });
  });

  it('print a change with its sign and a size without', () => {
    expect([amountText(step({})), amountText(step({ amount: -0.35 })), amountText(step({ form: 'quantity', amount: 2 }))]).toEqual(['+0.8', '\u22120.35', '2.0']);
  });

  it('read what a hand types', () => {
    expect(typedAmount('0,8', 'mm')).toEqual({ amount: 0.8, unit: 'mm' });
    expect(typedAmount(' -30 thou', 'mm')).toEqual({ amount: -30, unit: 'thou' });
    expect(typedAmount('\u22120.5', 'mm')).toEqual({ amount: -0.5, unit: 'mm' });
    expect(typedAmount('.5mm', 'thou')).toEqual({ amount: 0.5, unit: 'mm' });
    expect([typedAmount('', 'mm'), typedAmount('half', 'mm'), typedAmount('1.2.3', 'mm'), typedAmount('1; base', 'mm')]).toEqual([undefined, undefined, undefined, undefined]);
  });

  it('change places', () => {
    expect(put(['a', 'b', 'c'], 2, 0)).toEqual(['c', 'a', 'b']);
    expect(put(['a'], 5, 0)).toEqual(['a']);
  });
});

describe('what is stale', () => {
  it('is an answer to another question', () => {
    const asked = { saw: 'x', cuts: 'roof exhaust +1 mm' };
    expect(isStale(undefined, asked)).toBe(false);
    expect(isStale({ ...asked }, asked)).toBe(false);
    expect(isStale({ ...asked, cuts: '' }, asked)).toBe(true);
  });

  it('moves an edge by what is wanted and not yet drawn', () => {
    const wanted = amounts([{ act: 'roof exhaust', amount: 1, unit: 'mm', tail: '' }, { act: 'roof exhaust', amount: 0.5, unit: 'mm', tail: '' }, { act: 'base', amount: -1, unit: 'mm', tail: '' }]);
    expect(wanted).toEqual({ 'roof exhaust': 1.5 });
    const edges = [{ name: 'exhaust roof', act: 'roof exhaust', raise_is: -1 }, { name: 'rear floor', act: 'floor rear', raise_is: -1 }];
    expect(ghosts(wanted, { 'roof exhaust': 1 }, edges)).toEqual({ 'exhaust roof': -0.5 });
    expect(ghosts({}, { 'floor rear': -1 }, edges)).toEqual({ 'rear floor': -1 });
    expect(ghosts(wanted, wanted, edges)).toEqual({});
  });
});

describe('the curve', () => {
  const point = (rpm: number, power_kw: number, torque_nm: number): Point => ({ rpm, power_kw, torque_nm, stage: 'settled', settled: 'stable' });
  const now = [point(6000, 2.1, 3.3), point(9000, 2.6, 2.7), point(7000, 2.3, 3.2)];
  const stock = [point(6000, 2, 3.2), point(7000, 2.2, 3), point(9000, 2.5, 2.6)];
  const frame = curveFrame([...now, ...stock], 640, 250);

  it('goes through its points by speed, in whatever order they came', () => {
    const xs = [...curveLine(now, frame, 'power_kw').matchAll(/[ML]([\d.]+)/g)].map((found) => Number(found[1]));
    expect(xs).toEqual([...xs].sort((a, b) => a - b));
    expect(speedOf(frame, speedX(frame, 8123))).toBeCloseTo(8123, 6);
  });

  it('breaks where the engine does not pull', () => {
    expect(curveLine([...now, point(8000, 0, 0)], frame, 'power_kw').match(/M/g)).toHaveLength(2);
  });

  it('sets the names at its ends apart', () => {
    const ys = endLabels(now, stock, frame).map((label) => label.y).sort((a, b) => a - b);
    expect(ys).toHaveLength(4);
    ys.slice(1).forEach((y, k) => expect(y - ys[k]!).toBeGreaterThanOrEqual(17.9));
  });

  it('marks each round number of its axis once, whatever the engine gives', () => {
    for (const most of [0.3, 1, 2.2, 2.7, 3.4, 4.6, 7, 12]) {
      const one = curveFrame([point(6000, most, most / 2), point(9000, most / 3, most)], 640, 250);
      const texts = curveLevels(one).map((level) => level.text);
      expect(new Set(texts).size, String(most)).toBe(texts.length);
      expect(texts.length).toBeGreaterThan(1);
    }
  });

  it('takes no change where one side is a first look or does not fire', () => {
    const rough = { ...point(7000, 2.9, 3), stage: 'first look' };
    expect(shared([point(6000, 2.1, 3.3), rough, point(9000, 0, 0)], stock).map((one) => one.rpm)).toEqual([6000]);
  });

  it('takes changes only at speeds that both have', () => {
    expect(shared([...now, point(8000, 2.5, 3)], stock).map((one) => one.rpm)).toEqual([6000, 7000, 9000]);
    expect(nearestPoint(now, 8600)!.rpm).toBe(9000);
    expect(nearestPoint([], 8600)).toBeUndefined();
  });
});

describe('traces', () => {
  const answer = read('traces') as { series: Series[]; windows: { kind: string; label: string; opens_deg: number; closes_deg: number }[] };

  it('put pressures that breathe on an axis of their own', () => {
    const [first, second, third] = panels(answer.series);
    expect(first!.beside.map((one) => one.id)).toEqual(['cylinder_bar']);
    expect(second!.unit).toBe('mg/°');
    expect(third!.series.map((one) => one.id)).toEqual(['cylinder_bar']);
    const frame = traceFrame(first!, 40, 600, 0, 120);
    expect(frame.high).toBeLessThan(3);
  });

  it('leave out panels in which nothing happens', () => {
    const still = answer.series.map((one) => (one.unit === 'cm2' ? { ...one, values: one.values.map(() => 0) } : one));
    expect(panels(still)).toHaveLength(panels(answer.series).length - 1);
  });

  it('set names at the ends apart, and names on the lines too', () => {
    for (const panel of panels(answer.series)) {
      const frame = traceFrame(panel, 40, 600, 20, 150);
      const ys = traceLabels(panel, frame, 134).map((label) => label.y).sort((a, b) => a - b);
      ys.slice(1).forEach((y, k) => expect(y - ys[k]!).toBeGreaterThanOrEqual(17.9));
      const boxes = lineLabels(panel, frame, 14).map((label) => boxOf(label.line));
      boxes.forEach((a, k) => boxes.slice(k + 1).forEach((b) => expect(overlap(a, b)).toBe(false)));
    }
  });

  it('show a window that passes TDC as one stretch of the ruler', () => {
    expect(windowRows([{ kind: 'intake', label: 'intake open', opens_deg: 292, closes_deg: 428 }])).toEqual([{ kind: 'intake', label: 'intake open', from: -68, to: 68 }]);
  });
});

describe('arrows', () => {
  it('are 9 long and 3.2 wide with the tip where it is said', () => {
    expect(arrow(10, 20, 'left')).toBe('M10 20l9 -1.6v3.2z');
    expect(arrow(10, 20, 'down')).toBe('M10 20l-1.6 -9h3.2z');
  });
});
