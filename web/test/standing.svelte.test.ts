import { afterEach, describe, expect, it } from 'vitest';

import { Standing } from '../src/what_if/standing.svelte';
import type { Question } from '../src/what_if/trial.svelte';

async function flush() {
  for (let k = 0; k < 6; ++k) await Promise.resolve();
}

/** A job that ends by hand. */
class Work {
  asked = $state.raw<object | undefined>(undefined);
  question = $state.raw<object | undefined>(undefined);
  answer = $state.raw<object | undefined>(undefined);
  problem = $state.raw<unknown>(undefined);
  running = $state(false);
  ended = $state(false);
  ran: object[] = [];
  run(question: object) {
    this.ran.push(question);
    this.asked = question;
    this.running = true;
    this.ended = false;
    return Promise.resolve();
  }
  stop() {
    this.running = false;
  }
  close() {}
  async finish(problem?: unknown) {
    if (problem === undefined) {
      this.question = this.asked;
      this.answer = {};
    }
    this.problem = problem;
    this.running = false;
    this.ended = true;
    await flush();
  }
}

let end: (() => void) | undefined;
afterEach(() => end?.());

async function begun(cuts = 'a') {
  const first: Question = { saw: 's', cuts, units: 'shop' };
  let asked = $state.raw(first);
  const curve = new Work();
  const ranges = { job: new Work() };
  const jobs = { revs: new Work(), heat: new Work() };
  let standing!: Standing;
  end = $effect.root(() => {
    standing = new Standing({ get asked() { return asked; } }, { hand: curve as never, get running() { return curve.running; } }, ranges, (() => jobs) as never);
  });
  void curve.run(first);
  await flush();
  return {
    standing,
    curve,
    ranges,
    ...jobs,
    cut: async (text: string) => {
      asked = { ...asked, cuts: text };
      await flush();
      void curve.run(asked);
      await flush();
    },
  };
}

describe('what the cuts do to what the metal stands', () => {
  it('waits for the curve, then asks for the bottom end and after it for heat, each once and heat in brief', async () => {
    const { standing, curve, revs, heat } = await begun();
    expect([revs.ran.length, heat.ran.length]).toEqual([0, 0]);
    expect(standing.says).toBe('Comes when the curve is drawn.');
    await curve.finish();
    expect([revs.ran.length, heat.ran.length]).toEqual([1, 0]);
    await revs.finish();
    expect(heat.ran).toEqual([{ saw: 's', cuts: 'a', units: 'shop', brief: true }]);
    expect(standing.says).toBe('Heat is on its way.');
    await heat.finish();
    expect([revs.ran.length, heat.ran.length, standing.says]).toEqual([1, 1, '']);
  });

  it('does not ask heat again where it cannot be told', async () => {
    const { curve, revs, heat } = await begun();
    await curve.finish();
    await revs.finish();
    await heat.finish(new Error('No fins were read.'));
    expect(heat.ran.length).toBe(1);
  });

  it('makes way for another curve, and its old values are marked until the new ones are there', async () => {
    const { standing, curve, revs, heat, cut } = await begun();
    await curve.finish();
    await revs.finish();
    await cut('b');
    expect(heat.running).toBe(false);
    expect(standing.revsStale).toBe(true);
    await curve.finish();
    await revs.finish();
    expect(standing.revsStale).toBe(false);
    expect(heat.ran.length).toBe(2);
  });

  it('asks nothing where nothing is cut, and waits while ranges are run', async () => {
    const bare = await begun('');
    await bare.curve.finish();
    expect(bare.revs.ran.length).toBe(0);
    end?.();
    const { curve, ranges, revs } = await begun();
    ranges.job.running = true;
    await curve.finish();
    expect(revs.ran.length).toBe(0);
    ranges.job.running = false;
    await flush();
    expect(revs.ran.length).toBe(1);
  });
});
