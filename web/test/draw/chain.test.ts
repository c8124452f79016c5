import { describe, expect, it } from 'vitest';

import { ofWays, sprocketRows, sprocketScale, widthText } from '../../src/draw/chain_words';
import type { ChainAnswer } from '../../src/made/chain';
import { read } from './samples';

const chain = read('chain.cut') as ChainAnswer;

describe('sprockets', () => {
  const rows = sprocketRows(chain);

  it('stand by their teeth with the range of the speed they settle at', () => {
    expect(rows.map((row) => row.teeth)).toEqual([...rows.map((row) => row.teeth)].sort((a, b) => a - b));
    expect(rows.filter((row) => row.fitted).map((row) => row.name)).toEqual(['7 teeth, fitted']);
    for (const row of rows) expect(row.text).toMatch(/^\d[\d\u202f]* to \d[\d\u202f]* rpm$/);
    const scale = sprocketScale(rows);
    for (const row of rows) expect(row.low >= scale.low && row.high <= scale.high).toBe(true);
    expect(scale.low % 500 + (scale.high % 500)).toBe(0);
  });

  it('name one as best, by the ways that say so', () => {
    expect(rows.filter((row) => row.best).map((row) => row.chance)).toEqual(['66 of 100']);
    expect(ofWays(0.004)).toBe('0 of 100');
  });

  it('say that one bogs instead of a speed', () => {
    const [bogs] = sprocketRows({ ...chain, sprockets: [{ ...chain.sprockets[4]!, meets: 'bogs', rpm: 0, rpm_low: null, rpm_high: null, chance: 0 }] });
    expect([bogs!.text, bogs!.power, bogs!.best]).toEqual(['bogs', '\u2014', false]);
    expect(sprocketScale([bogs!])).toEqual({ low: 0, high: 1 });
  });

  it('are told for other widths of wood', () => {
    expect(widthText(chain.widths[2]!)).toBe('46 cm of wood: 7 teeth leave most, in 52 of 100 ways.');
    expect(widthText({ width_mm: 900, teeth: 0, chance: 0.8, sentence: '' })).toBe('90 cm of wood: it bogs with each.');
  });
});
