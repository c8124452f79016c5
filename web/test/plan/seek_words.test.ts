import { describe, expect, it } from 'vitest';

import { trade } from '../../src/draw/trade';
import { gainWords, percentWords, readFree, speaksOfEngine, triedSentence, turnedHold, withAim, writeFree } from '../../src/plan/seek_words';

describe('a wish about the engine', () => {
  it('is told from one about edges by its first word', () => {
    expect(speaksOfEngine('squish at least 0.5 mm; Most torque at 8000 rpm')).toBe(true);
    expect(speaksOfEngine('least heat')).toBe(true);
    expect(speaksOfEngine('squish at most 0.5 mm; exhaust at 99 deg')).toBe(false);
  });

  it('takes another aim and keeps what must hold', () => {
    expect(withAim('most power; squish at least 0.5 mm; heat at most +5 %', 'most pull')).toBe('most pull; squish at least 0.5 mm; heat at most +5 %');
    expect(withAim('squish 0.7 mm', 'least heat')).toBe('least heat; squish 0.7 mm');
  });

  it('holds one thing more, or no longer', () => {
    const held = turnedHold('most power', 'low speed free');
    expect(held).toBe('most power; low speed free');
    expect(turnedHold(held, 'low speed free')).toBe('most power');
  });
});

describe('free cuts', () => {
  it('are a list with ends, there and back', () => {
    const cuts = [{ name: 'base', most: '' }, { name: 'roof exhaust', most: '1.2 mm' }];
    expect(writeFree(cuts)).toBe('base; roof exhaust up to 1.2 mm');
    expect(readFree('base; roof exhaust up to 1.2 mm')).toEqual(cuts);
    expect(readFree('')).toEqual([]);
  });
});

describe('what was tried', () => {
  const tried = [
    { aim: 0, pull: 0, power: 0, heat: 0, holds: true },
    { aim: 5, pull: -2, power: 5, heat: 4, holds: true },
    { aim: 9, pull: 3, power: 9, heat: 8, holds: true },
    { aim: 90, pull: 80, power: 90, heat: 60, holds: false },
    { aim: 4, pull: 1, power: 4, heat: 2, holds: false },
  ];

  it('is told in a sentence from the same numbers', () => {
    expect(triedSentence({ tried, best: tried[2] })).toBe("5 lists were tried, 3 of them hold what must hold. The best so far has +9.0 % of most power, +3.0 % of pull and +8.0 % of heat into the cylinder's wall.");
    expect(triedSentence({ tried: tried.slice(0, 1) })).toContain('1 list was tried, 1 of them holds');
    expect([percentWords(0.01), percentWords(-2.34), percentWords(2.36)]).toEqual(['0.0', '\u22122.3', '+2.4']);
    expect(gainWords({ percent: 7, told_apart: true, text: '+7.0 %', range_text: '+5.3 % to +9.4 %' })).toBe('+7.0 %, +5.3 % to +9.4 %');
  });

  it('is drawn with more power above, more pull to the right, and more heat larger and darker', () => {
    const drawn = trade(tried, tried[2], 600, 300);
    const [stock, less, more] = drawn.dots;
    expect(more!.x).toBeGreaterThan(stock!.x);
    expect(less!.x).toBeLessThan(stock!.x);
    expect(more!.y).toBeLessThan(less!.y);
    expect([more!.r > less!.r, more!.shade > less!.shade]).toEqual([true, true]);
    expect([stock!.x, stock!.y]).toEqual([drawn.stock.x, drawn.stock.y]);
    expect(drawn.best).toMatchObject({ x: more!.x, y: more!.y });
  });

  it('is not squeezed by a list that does not hold and lies far off', () => {
    const { dots, frame } = trade(tried, undefined, 600, 300);
    expect(dots).toHaveLength(4);
    expect(dots.filter((dot) => !dot.holds)).toHaveLength(1);
    expect(dots[2]!.x - dots[1]!.x).toBeGreaterThan(0.7 * (frame.right - frame.left));
  });
});
