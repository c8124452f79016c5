import { describe, expect, it } from 'vitest';

import { belowNothing } from '../../src/draw/below_nothing';
import { endLabels, curveFrame, type Point } from '../../src/draw/curve';
import { dragged } from '../../src/draw/steps';
import { type Between, type Figured, twoRows } from '../../src/draw/two_what_ifs';
import { read, study } from './samples';

const figure = (id: string, value: number | null, change: number, apart: boolean): Figured => ({
  id,
  label: id,
  value,
  unit: 'deg',
  text: value === null ? '\u2014' : `${value.toFixed(1)} deg`,
  low: null,
  high: null,
  stock: { value: (value ?? 0) - change, low: null, high: null },
  change: { value: change, low: change - 0.1, high: change + 0.1, distinguishable: apart },
});
const between = (id: string, change: number, apart: boolean): Between => ({ id, change, distinguishable: apart, text_change: apart ? `${change > 0 ? '+' : '\u2212'}${Math.abs(change)}` : 'not told apart' });

describe('two what-ifs', () => {
  it('stand side by side as changes from stock, with what parts them', () => {
    const rows = twoRows([figure('opens', 103, -1.8, true)], [figure('opens', 102, -2.8, true)], [between('opens', -1.0, true)]);
    expect(rows).toEqual([{ id: 'opens', label: 'opens', stock: '104.8', unit: '\u00b0', hand: '\u22121.8', other: '\u22122.8', between: '\u22121' }]);
  });

  it('say nothing where a change or what parts them is not told apart', () => {
    const [row] = twoRows([figure('a', 10, 2, true)], [figure('a', 8.1, 0.1, false)], [between('a', -1.9, false)]);
    expect([row!.hand, row!.other, row!.between]).toEqual(['+2.0', '', '']);
  });

  it('leave out what neither moves and what either does not know', () => {
    expect(twoRows([figure('a', 10, 0, false), figure('b', null, 1, true), figure('c', 3, 1, true)], [figure('a', 10, 0, false), figure('b', 2, 1, true)], [])).toEqual([]);
  });

  it('take the program\'s own answers: every row of the sample moves', () => {
    const cut = study('study.cut').figures;
    const rows = twoRows(cut, cut, (read('compare') as { figures: Between[] }).figures);
    expect(rows.length).toBeGreaterThan(10);
    for (const row of rows) expect(row.hand).toBe(row.other);
    expect(rows.find((row) => row.id === 'port.exhaust.opens')!.hand).toMatch(/^\u2212\d\.\d+$/);
  });

  it('have names at the ends of their curves that do not touch', () => {
    const line = (lift: number): Point[] => [6000, 12000].map((rpm) => ({ rpm, power_kw: 2 + lift, torque_nm: 2.1 + lift, stage: 'settled', settled: 'stable' }));
    const frame = curveFrame([...line(0), ...line(0.05)], 640, 250);
    const labels = endLabels(line(0.05), line(0), frame, line(0.02));
    expect(labels.map((label) => `${label.of} ${label.text}`)).toEqual(['hand power', 'hand torque', 'other power, other', 'other torque, other', 'stock power', 'stock torque']);
    const ys = labels.map((label) => label.y).sort((a, b) => a - b);
    ys.slice(1).forEach((y, k) => expect(y - ys[k]!).toBeGreaterThanOrEqual(16));
  });
});

describe('a length below nothing', () => {
  it('is said in words for figures that can be one, and only then', () => {
    expect(belowNothing('pin.hole_wall', -2.8)).toMatch(/wider than the wall.*no wall is left/);
    expect(belowNothing('ring.2.peg_wall', -0.1)).toMatch(/ring/);
    expect([belowNothing('pin.hole_wall', 0.4), belowNothing('pin.hole_wall', null), belowNothing('port.exhaust.opens', -3)]).toEqual(['', '', '']);
  });

  it('has words for every wall of the samples that is one', () => {
    const lengths = ['study', 'study.larch-70', 'study.spruce-92', 'study.willow-64'].flatMap((name) => study(name).figures).filter((one) => one.unit === 'mm' && one.value !== null && one.value < 0 && one.id.includes('wall'));
    expect(lengths.length).toBeGreaterThan(0);
    for (const one of lengths) expect(belowNothing(one.id, one.value), one.id).not.toBe('');
  });
});

it('a dragged amount stands on a step, within the bounds of its cut', () => {
  const step = { least: 0, most: 2, step: 0.05 };
  expect([dragged(step, 0.333), dragged(step, -1), dragged(step, 7)]).toEqual([0.35, 0, 2]);
  expect(dragged({}, 0.333)).toBe(0.3);
});
