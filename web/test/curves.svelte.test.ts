import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';

import { Curves } from '../src/what_if/curves.svelte';

interface Question {
  saw: string;
  cuts: string;
  units: string;
}

/** Effects run in the next turn. */
async function flush() {
  for (let k = 0; k < 4; ++k) await Promise.resolve();
}

/** A curve's work, ended by hand. */
class Work {
  asked = $state.raw<Question | undefined>(undefined);
  question = $state.raw<Question | undefined>(undefined);
  answer = $state.raw<{ points: string[]; share: number; doing: string; stopped: boolean } | undefined>(undefined);
  running = $state(false);
  ended = $state(false);
  ran: string[] = [];
  run(question: Question) {
    this.asked = question;
    this.ran.push(question.cuts);
    this.running = true;
    this.ended = false;
    return Promise.resolve();
  }
  stop() {
    this.running = false;
  }
  close() {}
  async finish() {
    this.question = this.asked;
    this.answer = { points: [`of ${this.asked!.cuts}`], share: 1, doing: 'done', stopped: false };
    this.running = false;
    this.ended = true;
    await flush();
  }
}

function begin() {
  let asked = $state.raw<Question>({ saw: 's', cuts: 'a', units: 'shop' });
  let cuts = $state('');
  const [hand, other] = [new Work(), new Work()];
  const made = [hand, other];
  let curves!: Curves;
  const end = $effect.root(() => {
    curves = new Curves(
      { get asked() { return asked; }, stepper: { stale: false } },
      { get there() { return cuts !== ''; }, get cuts() { return cuts; } },
      (() => made.shift()) as never,
    );
  });
  const settle = async () => {
    await flush();
    vi.advanceTimersByTime(400);
    await flush();
  };
  return {
    hand,
    other,
    curves,
    end,
    cut: async (text: string) => ((asked = { ...asked, cuts: text }), await settle()),
    beside: async (text: string) => ((cuts = text), await settle()),
    settle,
  };
}

describe('two curves', () => {
  beforeEach(() => void vi.useFakeTimers());
  afterEach(() => void vi.useRealTimers());

  it('come one after the other: the one in hand, then the other', async () => {
    const { hand, other, curves, settle, beside, end } = begin();
    await settle();
    await beside('b');
    expect([hand.ran, other.ran]).toEqual([['a'], []]);
    await hand.finish();
    expect(other.ran).toEqual(['b']);
    expect(curves.says).toMatch(/^Settled; the other is/);
    await other.finish();
    expect([curves.otherPoints, curves.says]).toEqual([['of b'], 'Settled.']);
    end();
  });

  it('let the one in hand pass when a cut is turned, and go on with the other after it', async () => {
    const { hand, other, curves, settle, beside, cut, end } = begin();
    await settle();
    await hand.finish();
    await beside('b');
    await cut('a2');
    expect([hand.ran, other.running]).toEqual([['a', 'a2'], false]);
    await hand.finish();
    expect(other.ran).toEqual(['b', 'b']);
    await other.finish();
    await cut('a3');
    expect(curves.otherPoints).toEqual(['of b']);
    await hand.finish();
    expect(other.ran).toHaveLength(2);
    end();
  });

  it('are not begun again by what was stopped, also when the page is left', async () => {
    const { hand, other, curves, settle, beside, cut, end } = begin();
    await settle();
    await beside('b');
    hand.stop();
    await flush();
    expect(other.ran).toEqual([]);
    curves.stop();
    await flush();
    expect(other.ran).toEqual([]);
    await cut('a2');
    await hand.finish();
    expect(other.ran).toEqual(['b']);
    end();
  });

  it('show nothing of the other once it is dropped or another', async () => {
    const { hand, other, curves, settle, beside, end } = begin();
    await settle();
    await beside('b');
    await hand.finish();
    await other.finish();
    await beside('c');
    expect(curves.otherPoints).toEqual([]);
    await other.finish();
    expect(curves.otherPoints).toEqual(['of c']);
    await beside('');
    expect(curves.otherPoints).toEqual([]);
    end();
  });
});
