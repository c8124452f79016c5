import { describe, expect, it } from 'vitest';

import { moved, readPlace, writePlace } from '../src/state/place.svelte';

describe('place', () => {
  it('comes back from the query as it went in', () => {
    const where = { saw: 'saw-1', at: 'what-if', cuts: 'raise exhaust 1 mm; widen exhaust 1,5 mm', rpm: '9 500', field: '', other: '', photo: '', wish: 'exhaust at 99 deg; squish 0,7 mm', gaskets: '0.3 mm', step: 'none', chance: '10 %', way: '2', done: 'base -0.38 mm', planned: 'base -0.35 mm', set: 'k3', free: 'base; mouths', seconds: '5' } as const;
    expect(readPlace(writePlace(where))).toEqual(where);
  });

  it('is the bench without a query, and the bench writes none', () => {
    expect(readPlace('').at).toBe('bench');
    expect(writePlace(readPlace(''))).toBe('');
  });

  it('does not show a screen of a saw without a saw', () => {
    expect(readPlace('?at=readings').at).toBe('bench');
    expect(readPlace('?at=nonsense&saw=x').at).toBe('what-it-is');
    expect(readPlace('?at=settings').at).toBe('settings');
  });

  it('shows the book where no photo is named', () => {
    expect(readPlace('?at=measure&saw=x&photo=p')).toMatchObject({ at: 'measure', photo: 'p' });
    expect(readPlace('?at=measure&saw=x').at).toBe('book');
    expect(readPlace('?at=photo&photo=p').at).toBe('bench');
  });

  it('leaves a plan behind with its saw', () => {
    const from = readPlace('?at=plan&saw=x&wish=squish+0.7+mm&way=2&done=gasket+out&planned=gasket+out');
    expect(moved(from, { at: 'what-if' })).toMatchObject({ wish: 'squish 0.7 mm', way: '2', done: 'gasket out' });
    expect(moved(from, { at: 'bench', saw: '' })).toMatchObject({ wish: '', way: '', done: '', planned: '' });
    expect(moved(from, { saw: 'y', wish: 'squish 0.8 mm' })).toMatchObject({ wish: 'squish 0.8 mm', way: '', done: '' });
  });
});
