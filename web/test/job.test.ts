import { beforeEach, describe, expect, it } from 'vitest';

import { Job } from '../src/draw/job.svelte';
import { Events, type Source } from '../src/wire/events';
import { Unreachable } from '../src/wire/problem';

class Stream implements Source {
  onopen: ((event: Event) => void) | null = null;
  onerror: ((event: Event) => void) | null = null;
  readonly #hear = new Map<string, (event: MessageEvent<string>) => void>();
  addEventListener(kind: string, hear: (event: MessageEvent<string>) => void) {
    this.#hear.set(kind, hear);
  }
  tell(kind: string, told: object) {
    this.#hear.get(kind)?.({ data: JSON.stringify(told) } as MessageEvent<string>);
  }
  close() {}
}

interface Question {
  cuts: string;
}

/** A job, its stream, and a program whose answers are given by hand. */
function begin() {
  const streams: Stream[] = [];
  const events = new Events(() => streams[streams.push(new Stream()) - 1]!);
  const tab = Object.assign(new EventTarget(), { hidden: false });
  events.start(tab as unknown as Document);
  const ran: Question[] = [];
  const stopped: string[] = [];
  const stands: Record<string, string> = {};
  const program = {
    away: false,
    asked: 0,
    run: (_name: string, question: object) => Promise.resolve(`j${ran.push(question as Question)}`),
    stop: (job: string) => Promise.resolve(void stopped.push(job)),
    ask: (_name: string, { job }: { job: string }) => {
      ++program.asked;
      if (program.away) return Promise.reject(new Unreachable());
      return stands[job] === undefined ? Promise.reject(new Error('no such job')) : Promise.resolve({ job, name: 'curve', state: stands[job], share: 0.4, what: 'settling' });
    },
  };
  const job = new Job<Question, string>('curve', program as never, events);
  return {
    job,
    ran,
    stopped,
    stands,
    program,
    stream: () => streams.at(-1)!,
    /** the stream goes and comes back, with what was told meanwhile lost */
    async breakOff() {
      tab.hidden = true;
      tab.dispatchEvent(new Event('visibilitychange'));
      tab.hidden = false;
      tab.dispatchEvent(new Event('visibilitychange'));
      streams.at(-1)!.tell('hello', { last: 1, jobs: [] });
      await new Promise((done) => setTimeout(done, 0));
    },
  };
}

describe('a job whose stream broke off', () => {
  beforeEach(() => void Object.assign(globalThis, { window: new EventTarget() }));

  it('takes up work that still runs: its place at once, its parts with the next one', async () => {
    const { job, ran, stands, stream, breakOff } = begin();
    await job.run({ cuts: 'a' });
    stream().tell('part', { job: 'j1', answer: 'one speed' });
    stands['j1'] = 'running';
    await breakOff();
    expect([job.running, job.share, job.what, job.answer]).toEqual([true, 0.4, 'settling', 'one speed']);
    stream().tell('part', { job: 'j1', answer: 'three speeds' });
    stream().tell('done', { job: 'j1', answer: 'all' });
    expect([job.running, job.answer]).toEqual([false, 'all']);
    expect(ran).toHaveLength(1);
  });

  it.each(['done', 'failed', 'stopped', undefined])('asks again for work that ended unheard: %s', async (state) => {
    const { job, ran, stands, stream, breakOff } = begin();
    await job.run({ cuts: 'a' });
    stream().tell('part', { job: 'j1', answer: 'one speed' });
    if (state !== undefined) stands['j1'] = state;
    await breakOff();
    expect(ran).toEqual([{ cuts: 'a' }, { cuts: 'a' }]);
    expect([job.running, job.answer]).toEqual([true, 'one speed']);
    stream().tell('done', { job: 'j2', answer: 'all' });
    expect([job.running, job.answer, job.question]).toEqual([false, 'all', { cuts: 'a' }]);
  });

  it('looks also when the stream came back before the work had a name', async () => {
    const { job, ran, breakOff } = begin();
    const started = job.run({ cuts: 'a' });
    await breakOff();
    await started;
    await new Promise((done) => setTimeout(done, 0));
    expect(ran).toHaveLength(2);
  });

  it('leaves alone what is done, and what a newer question has replaced', async () => {
    const { job, ran, program, stands, stream, breakOff } = begin();
    await job.run({ cuts: 'a' });
    stream().tell('done', { job: 'j1', answer: 'all' });
    await breakOff();
    expect([program.asked, ran.length]).toEqual([0, 1]);
    await job.run({ cuts: 'b' });
    stands['j2'] = 'done';
    const back = breakOff();
    const newer = job.run({ cuts: 'c' });
    await Promise.all([back, newer]);
    expect(ran.map((one) => one.cuts)).toEqual(['a', 'b', 'c']);
  });

  it('has ended when it was answered or failed, not when it was stopped', async () => {
    const { job, stopped, stream } = begin();
    await job.run({ cuts: 'a' });
    expect(job.ended).toBe(false);
    job.stop();
    expect([job.running, job.ended, stopped]).toEqual([false, false, ['j1']]);
    await job.run({ cuts: 'b' });
    stream().tell('done', { job: 'j2', answer: 'all' });
    expect([job.running, job.ended]).toEqual([false, true]);
  });

  it('hears of an end that came before the work had a name: an answer, or what went wrong', async () => {
    for (const end of [{ answer: 'all' }, { problem: { type: 'x', title: 'No fins were read', status: 422, detail: 'No fins were read.', errors: [] } }]) {
      const { job, program, stream } = begin();
      program.run = () => {
        stream().tell('done', { job: 'j1', ...end });
        return Promise.resolve('j1');
      };
      await job.run({ cuts: 'a' });
      expect([job.running, job.ended]).toEqual([false, true]);
      expect(job.answer).toBe(end.answer);
      expect(job.problem === undefined).toBe(end.problem === undefined);
    }
  });

  it('waits for the next stream while the program does not answer', async () => {
    const { job, ran, program, breakOff } = begin();
    await job.run({ cuts: 'a' });
    program.away = true;
    await breakOff();
    expect([job.running, ran.length]).toEqual([true, 1]);
    program.away = false;
    await breakOff();
    expect(ran).toHaveLength(2);
  });
});
