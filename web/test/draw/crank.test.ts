import { describe, expect, it } from 'vitest';

import { angleBy, angleOf, at, crankText, isOpen, onRuler, rulerAngle, rulerX, spans, turn } from '../../src/draw/crank';
import { bore } from './samples';

const drop = bore().drop_mm!;
const stroke = bore().stroke_mm!;

describe('look-ups over the turn', () => {
  it('reads a degree as the table has it and a half by proportion', () => {
    expect(at(drop, 90)).toBe(drop[90]);
    expect(at(drop, 90.5)).toBeCloseTo((drop[90]! + drop[91]!) / 2, 12);
  });

  it('goes round: before TDC is the end of the table', () => {
    expect(at(drop, -10)).toBe(drop[350]);
    expect(at(drop, 370)).toBe(drop[10]);
  });

  it('finds the angle of every drop on the way down again', () => {
    for (const degrees of [5, 33.3, 90, 123.4, 170]) expect(angleOf(drop, at(drop, degrees))).toBeCloseTo(degrees, 6);
  });

  it('knows no angle above TDC or below BDC', () => {
    expect(angleOf(drop, -0.1)).toBeUndefined();
    expect(angleOf(drop, stroke + 0.1)).toBeUndefined();
  });

  it('moves an edge from its own angle, on either side of the turn', () => {
    const down = angleBy(drop, 105, -1)!;
    expect(at(drop, down)).toBeCloseTo(at(drop, 105) - 1, 3);
    expect(down).toBeLessThan(105);
    const up = angleBy(drop, 292, 1)!;
    expect(at(drop, up)).toBeCloseTo(at(drop, 292) + 1, 3);
    expect(up).toBeLessThan(292);
    expect(angleBy(drop, 105, 100)).toBeUndefined();
  });

  it('agrees with the program about where a roof opens', () => {
    for (const window of bore().windows.filter((one) => one.opened_by === 'crown')) expect(angleOf(drop, window.roof.at_mm)).toBeCloseTo(window.opens_deg!, 1);
  });

  it('says what is open about BDC and about TDC', () => {
    const exhaust = { opens_deg: 104, closes_deg: 256 };
    const intake = { opens_deg: 292, closes_deg: 68 };
    expect([90, 105, 180, 255, 257].map((degrees) => isOpen(exhaust, degrees))).toEqual([false, true, true, true, false]);
    expect([291, 293, 0, 67, 69, -10].map((degrees) => isOpen(intake, degrees))).toEqual([false, true, true, true, false, true]);
  });

  it('agrees with the areas about what is open', () => {
    const one = bore();
    for (const area of one.areas) {
      const event = one.events.find((candidate) => candidate.id === area.port)!;
      for (let degrees = 0; degrees < 360; degrees += 3) {
        const clear = Math.min(...[event.opens_deg, event.closes_deg].map((edge) => Math.abs(onRuler(edge - degrees)))) > 2;
        if (clear) expect(area.mm2[degrees]! > 0, `${area.port} at ${degrees}`).toBe(isOpen(event, degrees));
      }
    }
  });
});

describe('the ruler of the turn', () => {
  it('parts neither what is open about TDC nor about BDC', () => {
    for (const event of bore().events.filter((one) => one.kind !== 'free_port')) expect(spans(event)).toHaveLength(1);
  });

  it('shows what passes its end as two stretches', () => {
    const two = spans({ opens_deg: 250, closes_deg: 270 });
    expect(two).toEqual([
      { from: 250, to: turn.to },
      { from: turn.from, to: -90 },
    ]);
  });

  it('leads from an angle to its x and back', () => {
    for (const degrees of [-100, 0, 134, 180.5, 259]) expect(rulerAngle(rulerX(degrees, 66, 820), 66, 820)).toBe(degrees);
    expect(rulerAngle(-500, 66, 820)).toBe(turn.from);
    expect(rulerAngle(5000, 66, 820)).toBeLessThan(turn.to);
  });

  it('says the side of TDC an angle lies on', () => {
    expect(crankText(134)).toEqual({ value: '134°', side: 'after TDC' });
    expect(crankText(300)).toEqual({ value: '60°', side: 'before TDC' });
    expect(crankText(180).side).toBe('at BDC');
    expect(crankText(360).side).toBe('at TDC');
    expect(crankText(12.5).value).toBe('12.5°');
  });
});
