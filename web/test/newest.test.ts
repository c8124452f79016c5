import { describe, expect, it } from 'vitest';

import { Live, Newest } from '../src/wire/newest.svelte';

/** Work whose answers are given by hand. */
function byHand() {
  const open: { question: number; give: (answer: string) => void; fail: (error: Error) => void }[] = [];
  const work = (question: number) => new Promise<string>((give, fail) => open.push({ question, give, fail }));
  return { open, work };
}
const turn = () => new Promise((done) => setTimeout(done, 0));

describe('newest', () => {
  it('has one question in flight and keeps only the newest of those that wait', async () => {
    const { open, work } = byHand();
    const heard: [string, number, boolean][] = [];
    const queue = new Newest<number, string>(work, (answer, question, settled) => heard.push([answer, question, settled]), () => {});
    queue.ask(1);
    queue.ask(2);
    queue.ask(3);
    expect(open.map((one) => one.question)).toEqual([1]);
    open[0]!.give('one');
    await turn();
    expect(open.map((one) => one.question)).toEqual([1, 3]);
    open[1]!.give('three');
    await turn();
    expect(heard).toEqual([
      ['one', 1, false],
      ['three', 3, true],
    ]);
  });

  it('goes on after a failure', async () => {
    const { open, work } = byHand();
    const failed: number[] = [];
    const queue = new Newest<number, string>(work, () => {}, (_, question) => failed.push(question));
    queue.ask(1);
    queue.ask(2);
    open[0]!.fail(new Error('no'));
    await turn();
    expect(failed).toEqual([1]);
    expect(open.map((one) => one.question)).toEqual([1, 2]);
  });

  it('tells nothing once it is closed', async () => {
    const { open, work } = byHand();
    const heard: string[] = [];
    const queue = new Newest<number, string>(work, (answer) => heard.push(answer), () => {});
    queue.ask(1);
    queue.close();
    open[0]!.give('late');
    await turn();
    queue.ask(2);
    expect(heard).toEqual([]);
    expect(open).toHaveLength(1);
  });

  it('says when the newest answer is there', async () => {
    const { open, work } = byHand();
    const live = new Live<number, string>(work);
    live.want(1);
    let there = false;
    void live.fresh(2).then(() => (there = true));
    open[0]!.give('one');
    await turn();
    expect(there).toBe(false);
    open[1]!.give('two');
    await turn();
    expect([there, live.answer]).toEqual([true, 'two']);
  });

  it('keeps the old answer, marked stale, until the new one is there', async () => {
    const { open, work } = byHand();
    const live = new Live<number, string>(work);
    live.want(1);
    open[0]!.give('one');
    await turn();
    expect([live.answer, live.stale]).toEqual(['one', false]);
    live.want(2);
    expect([live.answer, live.stale]).toEqual(['one', true]);
    open[1]!.fail(new Error('away'));
    await turn();
    expect(live.answer).toBe('one');
    expect(live.stale).toBe(true);
    expect(live.problem).toBeInstanceOf(Error);
  });
});
