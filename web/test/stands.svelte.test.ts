import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';

import { type AtSpeed, Stands } from '../src/stands/stands.svelte';

/** A job that ends by hand. */
class Work {
  asked = $state.raw<object | undefined>(undefined);
  question = $state.raw<object | undefined>(undefined);
  answer = $state.raw<object | undefined>(undefined);
  running = $state(false);
  ended = $state(false);
  runs = 0;
  closed = false;
  run(question: object) {
    this.runs += 1;
    this.asked = question;
    this.running = true;
    this.ended = false;
    return Promise.resolve();
  }
  stop() {
    this.running = false;
  }
  close() {
    this.closed = true;
  }
  finish() {
    this.question = this.asked;
    this.answer = {};
    this.running = false;
    this.ended = true;
  }
}

let end: (() => void) | undefined;
beforeEach(() => void vi.useFakeTimers());
afterEach(() => {
  end?.();
  vi.useRealTimers();
});

async function settle() {
  for (let k = 0; k < 4; ++k) await Promise.resolve();
  await vi.advanceTimersByTimeAsync(500);
  for (let k = 0; k < 4; ++k) await Promise.resolve();
}

async function begun() {
  let asked = $state.raw<AtSpeed>({ saw: 's', cuts: '', speed: '', units: 'shop' });
  let turn = $state(0);
  const jobs = { revs: new Work(), heat: new Work(), chain: new Work() };
  let stands!: Stands;
  end = $effect.root(() => {
    stands = new Stands({ get asked() { return asked; }, get turn() { return turn; } }, (() => jobs) as never);
  });
  await settle();
  return {
    stands,
    ...jobs,
    ask: async (change: Partial<AtSpeed>) => {
      asked = { ...asked, ...change };
      await settle();
    },
    write: async () => {
      turn += 1;
      await settle();
    },
  };
}

describe('what the metal stands, asked in turn', () => {
  it('asks for the bottom end first and once, then for heat, and for the chain never by itself', async () => {
    const { revs, heat, chain } = await begun();
    expect([revs.runs, heat.runs, chain.runs]).toEqual([1, 0, 0]);
    revs.finish();
    await settle();
    expect([revs.runs, heat.runs, chain.runs]).toEqual([1, 1, 0]);
    heat.finish();
    await settle();
    expect([revs.runs, heat.runs, chain.runs]).toEqual([1, 1, 0]);
  });

  it('begins the chain only when nothing else is at work', async () => {
    const { stands, revs, heat, chain } = await begun();
    stands.findSprocket();
    await settle();
    expect(chain.runs).toBe(0);
    revs.finish();
    await settle();
    expect([heat.running, chain.runs]).toEqual([true, 0]);
    heat.finish();
    await settle();
    expect(chain.runs).toBe(1);
    expect(stands.chainWanted).toBe(false);
  });

  it('begins anew with another question, stops what runs for the old one and marks its answers as old', async () => {
    const { stands, revs, heat, chain, ask } = await begun();
    revs.finish();
    await settle();
    heat.finish();
    stands.findSprocket();
    await settle();
    chain.finish();
    await settle();
    expect([stands.revsStale, stands.heatStale, stands.chainStale]).toEqual([false, false, false]);
    await ask({ cuts: 'roof exhaust +1 mm' });
    expect(revs.runs).toBe(2);
    expect([stands.revsStale, stands.heatStale, stands.chainStale]).toEqual([true, true, true]);
    revs.finish();
    await settle();
    expect(heat.asked).toMatchObject({ cuts: 'roof exhaust +1 mm' });
    await ask({ speed: '9500' });
    expect(heat.running).toBe(false);
    expect(chain.runs).toBe(1);
  });

  it('asks heat again after the book was changed, and marks all three as old until then', async () => {
    const { stands, revs, heat, chain, write } = await begun();
    revs.finish();
    await settle();
    heat.finish();
    stands.findSprocket();
    await settle();
    chain.finish();
    await settle();
    expect([stands.revsStale, stands.heatStale, stands.chainStale]).toEqual([false, false, false]);
    await write();
    expect([revs.runs, heat.runs]).toEqual([2, 1]);
    expect([stands.revsStale, stands.heatStale, stands.chainStale]).toEqual([true, true, true]);
    revs.finish();
    await settle();
    expect([revs.runs, heat.runs]).toEqual([2, 2]);
  });
});
