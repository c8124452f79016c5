import { describe, expect, it } from 'vitest';

import type { Figure, Saw } from '../../src/made/study';
import { isWhole, offerOf, offersOf, readWish, readWishes, turned, writeWish, writeWishes } from '../../src/plan/wish_text';

const row = (text: string) => {
  const { figure, relation, value } = readWish(text);
  return [figure, relation, value];
};

describe('a wish as a row', () => {
  it('reads what the grammar says', () => {
    expect(row('exhaust at 99 deg')).toEqual(['exhaust opens', 'at', '99 deg']);
    expect(row('Exhaust width 62 %')).toEqual(['exhaust width', 'at', '62 %']);
    expect(row('blowdown at least 21 deg')).toEqual(['blowdown', 'at least', '21 deg']);
    expect(row('squish 28 thou')).toEqual(['squish', 'at', '28 thou']);
    expect(row('skirt cover exhaust at least 1,5 mm')).toEqual(['skirt cover exhaust', 'at least', '1,5 mm']);
    expect(row('transfers opens as stock')).toEqual(['transfers opens', 'as stock', '']);
    expect(row('squish at most as stock')).toEqual(['squish', 'at most as stock', '']);
    expect(row('trapped ratio 7')).toEqual(['trapped ratio', 'at', '7']);
    expect(row('rear left duration 140\u00b0')).toEqual(['rear left duration', 'at', '140\u00b0']);
  });

  it('leaves alone what the program has to ask about', () => {
    for (const text of ['exhaust 99 deg', 'transfers as stock', 'squish free', 'a lot more of everything', 'squish']) {
      expect(readWish(text)).toMatchObject({ figure: '', text });
      expect(writeWish(readWish(text))).toBe(text);
    }
  });

  it('comes back as the text it was, wish by wish', () => {
    const text = 'exhaust at 99 deg; transfers at 119.5 deg; squish 0,7 mm; exhaust width at most 62 %; squish free; primary opens as stock';
    expect(writeWishes(readWishes(text))).toBe(text);
    expect(writeWishes(readWishes('exhaust at 99 deg\n\n  squish   0.7 mm ;'))).toBe('exhaust at 99 deg; squish 0.7 mm');
  });

  it('means the same when it is written anew', () => {
    for (const text of ['exhaust at 99 deg', 'exhaust opens at least 99 deg', 'exhaust opens 24 mm', 'squish 0.7 mm', 'blowdown at most 22 deg', 'full ratio at least as stock']) {
      const wish = readWish(text);
      expect(row(writeWish({ ...wish, text: '' }))).toEqual([wish.figure, wish.relation, wish.value]);
    }
  });

  it('is turned by hand, and not sent before it is whole', () => {
    const wish = readWish('exhaust at 99 deg');
    expect(turned(wish, { value: '98.5 deg' }).text).toBe('exhaust at 98.5 deg');
    expect(turned(wish, { relation: 'as stock' }).text).toBe('exhaust opens as stock');
    const empty = turned(wish, { value: ' ' });
    expect(isWhole(empty)).toBe(false);
    expect(writeWishes([empty, readWish('squish 0.7 mm')])).toBe('squish 0.7 mm');
  });
});

const figure = (id: string, text: string, value: number | null = 1) => ({ id, text, value }) as Figure;
const saw = { ports: [{ name: 'exhaust', kind: 'exhaust', windows: 1 }, { name: 'primary', kind: 'transfer', windows: 2 }, { name: 'secondary', kind: 'transfer', windows: 2 }] } as Saw;

describe('what may be wished', () => {
  const offers = offersOf(saw, [
    figure('port.exhaust.opens', '104.8 deg'),
    figure('port.primary.opens', '121.6 deg'),
    figure('port.secondary.opens', '122.5 deg'),
    figure('timing.blowdown', '16.7 deg'),
    figure('squish.clearance', '1.05 mm (41 thou)'),
    figure('chamber.volume', '', null),
    figure('skirt.cover_exhaust', '3.10 mm'),
  ]);
  const stock = (text: string) => offerOf(readWish(text), offers)?.stock;

  it('stands beside what the saw has, and nothing stands beside what is not known', () => {
    expect(stock('exhaust at 99 deg')).toBe('104.8 deg');
    expect(stock('transfers at 119 deg')).toBe('121.6 deg, 122.5 deg');
    expect(stock('squish 0.7 mm')).toBe('1.05 mm (41 thou)');
    expect(stock('chamber 7 cc')).toBe('');
    expect(stock('skirt cover at least 1 mm')).toBe('3.10 mm');
    expect(stock('squish free')).toBeUndefined();
  });

  it('is what this saw has', () => {
    const figures = offers.map((offer) => offer.figure);
    expect(figures).toContain('blowdown');
    expect(figures).toContain('transfers width');
    expect(figures).not.toContain('skirt cover intake');
    for (const offer of offers) expect(readWish(`${offer.figure} 1 mm`).figure).toBe(offer.figure);
  });
});
