import { afterEach, describe, expect, it } from 'vitest';

import type { RunChange } from '../src/made/run';
import { changeWords, Ranges } from '../src/what_if/ranges.svelte';

interface Question {
  saw: string;
  cuts: string;
  units: string;
}

/** Effects run in the next turn. */
async function flush() {
  for (let k = 0; k < 4; ++k) await Promise.resolve();
}

const change = (figure: string, rpm: number, low: number, high: number): RunChange => ({
  figure, label: 'Power', unit: 'kW', rpm, stock: 2, stock_low: 1.5, stock_high: 2.5, change: (low + high) / 2, low, high,
  distinguishable: low > 0 || high < 0, text: low > 0 ? '+0.12 kW' : 'not told apart', range: `${low} to ${high}`,
});

/** The sets' work, ended by hand. */
class Work {
  asked = $state.raw<Question | undefined>(undefined);
  question = $state.raw<Question | undefined>(undefined);
  answer = $state.raw<{ changes: RunChange[]; stopped: boolean } | undefined>(undefined);
  running = $state(false);
  share = $state(0);
  what = $state('');
  stops = 0;
  run(question: Question) {
    this.asked = question;
    this.running = true;
    return Promise.resolve();
  }
  stop() {
    this.stops += 1;
    this.running = false;
  }
  close() {}
  async finish(changes: RunChange[]) {
    this.question = this.asked;
    this.answer = { changes, stopped: false };
    this.running = false;
    await flush();
  }
}

let end: (() => void) | undefined;
afterEach(() => end?.());

async function begun() {
  let asked = $state.raw<Question>({ saw: 's', cuts: 'a', units: 'shop' });
  const work = new Work();
  let ranges!: Ranges;
  end = $effect.root(() => {
    ranges = new Ranges({ get asked() { return asked; } }, (() => work) as never);
  });
  await flush();
  return { ranges, work, cut: async (cuts: string) => { asked = { ...asked, cuts }; await flush(); } };
}

describe('ranges of a change', () => {
  it('are asked for by hand only, and drawn for power', async () => {
    const { ranges, work } = await begun();
    expect(work.asked).toBeUndefined();
    ranges.begin();
    expect(work.asked?.cuts).toBe('a');
    work.share = 0.43;
    work.what = 'ranges';
    expect(ranges.says).toBe('ranges, 43 % ready.');
    await work.finish([change('run.power', 9000, 0.05, 0.2), change('run.torque', 9000, -0.1, 0.2), change('run.knock', 9000, 0, 1)]);
    expect(ranges.told).toEqual([{ rpm: 9000, low: 0.05, high: 0.2, apart: true }]);
    expect(ranges.changes.map((one) => one.figure)).toEqual(['run.power', 'run.torque']);
  });

  it('are not shown for other cuts, and say so', async () => {
    const { ranges, work, cut } = await begun();
    ranges.begin();
    await work.finish([change('run.power', 9000, 0.05, 0.2)]);
    await cut('b');
    expect(ranges.told).toEqual([]);
    expect(ranges.says).toBe('The ranges that were run are of other cuts.');
    await cut('a');
    expect(ranges.told).toHaveLength(1);
  });

  it('of cuts that are gone are stopped', async () => {
    const { ranges, work, cut } = await begun();
    ranges.begin();
    await cut('b');
    expect(work.stops).toBe(1);
    expect(ranges.told).toEqual([]);
  });

  it('read as words', () => {
    expect(changeWords(change('run.power', 11250, -0.02, 0.1))).toEqual({ at: '11\u202f250 rpm', text: 'not told apart', range: '-0.02 to 0.1' });
  });
});
