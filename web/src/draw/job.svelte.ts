// Long work that a screen shows while it gets ready: the old answer stays, marked stale, until a part of the new one
// is here; a new question stops the old work.

import type { RunName } from '../wire/asks';
import { client } from '../wire/client';
import { events } from '../wire/events';
import { type Problem, ProblemError } from '../wire/problem';

export class Job<Q extends object, A> {
  answer = $state.raw<A | undefined>(undefined);
  /** the question that `answer` belongs to */
  question = $state.raw<Q | undefined>(undefined);
  running = $state(false);
  share = $state(0);
  what = $state('');
  problem = $state.raw<unknown>(undefined);
  #job = '';
  #asked: Q | undefined;
  #turn = 0;
  readonly #early = new Map<string, { answer: A; done: boolean }>();
  readonly #off: (() => void)[];

  constructor(private readonly name: RunName) {
    this.#off = [
      events.on('part', (told) => this.#part(told.job, told.answer as A)),
      events.on('job', (told) => {
        if (told.job !== this.#job) return;
        this.share = told.share;
        this.what = told.what;
      }),
      events.on('done', (told) => this.#done(told.job, told.answer as A | undefined, told.problem)),
    ];
    // A page that goes leaves no work behind.
    const leave = () => this.stop();
    window.addEventListener('pagehide', leave);
    this.#off.push(() => window.removeEventListener('pagehide', leave));
  }

  /** Asks anew; what runs for an older question is stopped. */
  async run(question: Q): Promise<void> {
    const turn = ++this.#turn;
    this.stop();
    this.#asked = question;
    this.running = true;
    this.problem = undefined;
    this.share = 0;
    try {
      const job = await client.run(this.name, question);
      if (turn !== this.#turn) return void client.stop(job).catch(() => undefined);
      this.#job = job;
      const early = this.#early.get(job);
      if (early !== undefined) this.#take(early.answer);
      if (early?.done) this.running = false;
      this.#early.clear();
    } catch (thrown) {
      if (turn !== this.#turn) return;
      this.problem = thrown;
      this.running = false;
    }
  }

  stop(): void {
    if (this.#job !== '' && this.running) void client.stop(this.#job).catch(() => undefined);
    this.#job = '';
    this.running = false;
  }

  close(): void {
    ++this.#turn;
    this.stop();
    for (const off of this.#off) off();
  }

  #take(answer: A): void {
    this.answer = answer;
    this.question = this.#asked;
  }

  #part(job: string, answer: A): void {
    if (job === this.#job) this.#take(answer);
    else if (this.running && this.#job === '') this.#early.set(job, { answer, done: false });
  }

  #done(job: string, answer: A | undefined, problem: unknown): void {
    if (job !== this.#job) {
      if (answer !== undefined && this.running && this.#job === '') this.#early.set(job, { answer, done: true });
      return;
    }
    if (answer !== undefined) this.#take(answer);
    this.problem = problem == null ? undefined : new ProblemError(problem as Problem);
    this.running = false;
    this.share = 1;
  }
}
