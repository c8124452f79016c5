import { describe, expect, it } from 'vitest';

import { barY, gaugeFrame, gaugeLevels, gaugeSentence, needleLine, pullNames, pullX } from '../../src/draw/gauge';
import { pieces } from '../../src/draw/path';
import type { CrankAnswer } from '../../src/made/crank';
import { read } from './samples';

const strokes = [3.1, 5.6, 7.4, 8.5, 9.2, 9.6, 9.8, 9.9];

describe('the gauge, pull by pull', () => {
  it('has room for every pull and for the gauge as read', () => {
    const frame = gaugeFrame(strokes, 12.4, 600, 190);
    expect(frame.most).toBeGreaterThan(12.4);
    expect(pullX(frame, 1)).toBeGreaterThan(frame.left);
    expect(pullX(frame, strokes.length)).toBeLessThan(frame.right);
    for (const bar of [0, ...strokes, 12.4]) {
      expect(barY(frame, bar)).toBeGreaterThanOrEqual(frame.top);
      expect(barY(frame, bar)).toBeLessThanOrEqual(frame.bottom);
    }
    expect(gaugeLevels(frame).length).toBeGreaterThan(2);
  });

  it('holds the needle between pulls: stairs, never down', () => {
    const frame = gaugeFrame(strokes, null, 600, 190);
    const points = pieces(needleLine(strokes, frame)).map((piece) => piece.values as [number, number]);
    points.slice(1).forEach(([x, y], k) => {
      const [beforeX, beforeY] = points[k]!;
      expect(x === beforeX || y === beforeY).toBe(true);
      expect(y).toBeLessThanOrEqual(beforeY);
    });
    expect(points.at(-1)![0]).toBe(frame.right);
  });

  it('numbers as many pulls as there is room for', () => {
    expect(pullNames(gaugeFrame(strokes, null, 600, 190))).toEqual([1, 2, 3, 4, 5, 6, 7, 8]);
    expect(pullNames(gaugeFrame(strokes, null, 160, 190)).length).toBeLessThan(8);
  });

  it('is drawn from the program\'s own answer', () => {
    const gauge = read('crank') as CrankAnswer;
    expect(gauge.strokes_bar.length).toBeGreaterThan(3);
    const frame = gaugeFrame(gauge.strokes_bar, gauge.read_bar, 328, 190);
    expect(pieces(needleLine(gauge.strokes_bar, frame)).length).toBe(2 * gauge.strokes_bar.length + 2);
    expect(gaugeSentence(gauge.strokes_bar, gauge.read_bar)).toMatch(/10\.0 bar was read\.$/);
  });

  it('says what it shows', () => {
    expect(gaugeSentence(strokes, 10.0)).toBe('The first pull brings 3.1 bar, the needle is within a twentieth of its end after 6 pulls and ends at 9.9 bar; 10.0 bar was read.');
    expect(gaugeSentence([9], null)).toBe('The first pull brings 9.0 bar, the needle is within a twentieth of its end after the first pull and ends at 9.0 bar.');
    expect(gaugeSentence([], null)).toBe('No pull was reckoned.');
  });
});
