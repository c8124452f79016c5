import { describe, expect, it } from 'vitest';

import type { PlanLimit, PlanWay, PlanWish } from '../../src/made/plan';
import { asCut, besidePlanned, chanceWords, costs, cutParts, cutsOf, forPage, likest, limitRows, minus, reachedRows, restOf, sentence } from '../../src/plan/way_words';

const way = (cuts: string, more: Partial<PlanWay> = {}) => ({ cuts, steps: cutsOf(cuts).map((cut) => ({ cut, exact: cut, text: cut })), wishes: [], ...more }) as unknown as PlanWay;

describe('ways in words', () => {
  it('says what a way costs', () => {
    expect(costs(way('', { metal_mm3: 454.3, metal_text: '454 mm\u00b3', work: '1 turned, 2 by hand' }))).toBe('454 mm\u00b3 of metal, 1 turned, 2 by hand');
    expect(costs(way('', { metal_mm3: null, metal_text: 'waits for the chord', work: '' }))).toBe('metal: waits for the chord');
  });

  it('puts what is reached beside what is asked, with what rounding leaves and its unit', () => {
    const wishes = [
      { label: 'exhaust opens', unit: 'deg', relation: 'is', stock_text: '104.8 deg', asked_text: '99.0 deg' },
      { label: 'skirt cover', unit: 'mm', relation: 'at least', stock_text: '3.10 mm', asked_text: 'at least 1.00 mm' },
      { label: 'trapped ratio', unit: '-', relation: 'is', stock_text: '6.2', asked_text: '7.0' },
    ] as PlanWish[];
    const rows = reachedRows(wishes, way('', { wishes: [['99.0 deg', '\u22120.02'], ['2.60 mm', '0.00'], ['7.1', '+0.04']].map(([reached_text, left_text]) => ({ figure: '', exact: 0, reached: 0, left: 0, reached_text: reached_text!, left_text: left_text! })) }));
    expect(rows.map((row) => [row.label, row.asked, row.reached, row.left])).toEqual([
      ['Exhaust opens', '99.0 deg', '99.0 deg', 'rounding leaves \u22120.02 deg'],
      ['Skirt cover', 'at least 1.00 mm', '2.60 mm', 'met'],
      ['Trapped ratio', '7.0', '7.1', 'rounding leaves +0.04'],
    ]);
  });

  it('puts the nearest limit first, and knows no chance better than its samples do', () => {
    const limit = (rule: string, margin: number, stop: number, chance: number) => ({ rule, figure: rule, label: rule, unit: 'mm', value: 0, stop, margin, chance, text: '0.61 mm (24 thou), at least 0.35 mm (14 thou): 0.26 mm (10 thou) left, passed with a chance of 0 %' }) as PlanLimit;
    const rows = limitRows([limit('far', 6, 2, 0), limit('near', 0.2, 2, 0), limit('likely', 6, 2, 0.03)]);
    expect(rows.map((row) => row.label)).toEqual(['likely', 'near', 'far']);
    expect(rows[0]).toMatchObject({ holds: '0.61 mm (24 thou), at least 0.35 mm (14 thou)', left: '0.26 mm (10 thou) left', chance: '3 %' });
    expect([chanceWords(0), chanceWords(0.002), chanceWords(0.049)]).toEqual(['under 1 %', 'under 1 %', '5 %']);
  });

  it('makes sentences, and names options as the page does', () => {
    expect(sentence('look before it is cut')).toBe('Look before it is cut.');
    expect(sentence('Which?')).toBe('Which?');
    expect(sentence('')).toBe('');
    expect(forPage('--chance says how surely')).toBe('The chance, under the options, says how surely');
  });
});

describe('a cut at the bench', () => {
  it('is taken apart and put together with what it came to', () => {
    expect(cutParts('crown edge -0.15 mm wide 5.5 mm')).toEqual({ act: 'crown edge', amount: '-0.15 mm', tail: 'wide 5.5 mm' });
    expect(cutParts('gasket out')).toEqual({ act: 'gasket out', amount: '', tail: '' });
    expect(asCut('base -0.35 mm', '-0.38 mm')).toBe('base -0.38 mm');
    expect(asCut('base -0.35 mm', '0.38 mm')).toBe('base -0.38 mm');
    expect(asCut('base -0.35 mm', '\u221215 thou')).toBe('base -15 thou');
    expect(asCut('base -0.35 mm', 'base -0.38 mm')).toBe('base -0.38 mm');
    expect(asCut('crown edge -0.15 mm wide 5.5 mm', '0.2 mm')).toBe('crown edge -0.2 mm wide 5.5 mm');
    expect(asCut('gasket to 0.3 mm', '0.32 mm')).toBe('gasket to 0.32 mm');
    expect(asCut('gasket out', '')).toBe('gasket out');
  });

  it('stands beside what was planned, also in other units', () => {
    expect(besidePlanned('base -0.35 mm', 'base -0.38 mm')).toBe('planned \u22120.35 mm, 0.03 mm more was cut');
    expect(besidePlanned('roof exhaust +1.95 mm', 'roof exhaust +1.9 mm')).toBe('planned +1.95 mm, 0.05 mm less was cut');
    expect(besidePlanned('base -0.254 mm', 'base -10 thou')).toBe('planned \u22120.254 mm, as planned');
    expect(besidePlanned('gasket out', 'gasket out')).toBe('as planned');
    expect(besidePlanned('', 'base -0.1 mm')).toBe('not planned here');
  });

  it('leaves of a way what is not done yet', () => {
    expect(restOf(way('base -0.38 mm; widen exhaust +1.1 mm'), ['base -0.38 mm']).map((step) => step.cut)).toEqual(['widen exhaust +1.1 mm']);
    // Ticked and not planned anew yet: it is not to be cut once more.
    expect(restOf(way('base -0.38 mm; widen exhaust +1.1 mm'), [], ['base -0.35 mm']).map((step) => step.cut)).toEqual(['widen exhaust +1.1 mm']);
  });

  it('keeps the way in hand when the list of ways changes', () => {
    const ways = [way('gasket out; crown edge -0.15 mm wide 5.5 mm; roof exhaust +1.95 mm'), way('gasket out; band -0.15 mm; roof exhaust +2.1 mm'), way('base -0.38 mm; roof exhaust +1.95 mm')];
    expect(likest(ways, 'base -0.35 mm; roof exhaust +1.9 mm')).toBe(2);
    expect(likest(ways, 'gasket to 0.3 mm; band -0.2 mm; roof exhaust +2 mm')).toBe(1);
    expect(likest(ways, '')).toBe(0);
  });

  it('prints a minus as one', () => {
    expect(minus('base -0.35 mm')).toBe('base \u22120.35 mm');
  });
});
