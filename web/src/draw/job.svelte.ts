// Long work that a screen shows while it gets ready: the old answer stays, marked stale, until a part of the new one
// is here; a new question stops the old work. What the program tells while the stream is away is lost: when the stream
// is back, the program is asked how the work stands.

import type { JobAnswer } from '../made/job';
import type { RunName } from '../wire/asks';
import { client, type Client } from '../wire/client';
import { events, type Events } from '../wire/events';
import { type Problem, ProblemError, Unreachable } from '../wire/problem';

export class Job<Q extends object, A> {
  answer = $state.raw<A | undefined>(undefined);
  /** the question that `answer` belongs to */
  question = $state.raw<Q | undefined>(undefined);
  /** the question that was asked last */
  asked = $state.raw<Q | undefined>(undefined);
  running = $state(false);
  /** the question asked last came to its end, with an answer or a problem; not when it was stopped */
  ended = $state(false);
  share = $state(0);
  what = $state('');
  problem = $state.raw<unknown>(undefined);
  #job = '';
  #turn = 0;
  /** the stream came back while the job had no name yet */
  #missed = false;
  readonly #early = new Map<string, { answer: A | undefined; done: boolean; problem: unknown }>();
  readonly #off: (() => void)[];

  constructor(
    private readonly name: RunName,
    private readonly door: Pick<Client, 'ask' | 'run' | 'stop'> = client,
    told: Pick<Events, 'on'> = events,
  ) {
    this.#off = [
      told.on('hello', () => void this.#back()),
      told.on('part', (part) => this.#part(part.job, part.answer as A)),
      told.on('job', (state) => {
        if (state.job !== this.#job) return;
        this.share = state.share;
        this.what = state.what;
      }),
      told.on('done', (end) => this.#done(end.job, end.answer as A | undefined, end.problem)),
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
    this.asked = question;
    this.running = true;
    this.ended = false;
    this.#missed = false;
    this.problem = undefined;
    this.share = 0;
    try {
      const job = await this.door.run(this.name, question);
      if (turn !== this.#turn) return void this.door.stop(job).catch(() => undefined);
      this.#job = job;
      const early = this.#early.get(job);
      this.#early.clear();
      if (early?.done) this.#done(job, early.answer, early.problem);
      else if (early?.answer !== undefined) this.#take(early.answer);
      if (this.#missed) void this.#back();
    } catch (thrown) {
      if (turn !== this.#turn) return;
      this.problem = thrown;
      this.#end();
    }
  }

  stop(): void {
    if (this.#job !== '' && this.running) void this.door.stop(this.#job).catch(() => undefined);
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
    this.question = this.asked;
  }

  /** The stream is back. Work that still runs tells all it has with its next part; work that ended unheard is asked for
   * again: the program has kept what it cost most to find. */
  async #back(): Promise<void> {
    if (!this.running) return;
    const job = this.#job;
    if (job === '') return void (this.#missed = true);
    let stands: JobAnswer | undefined;
    try {
      stands = await this.door.ask('job', { job });
    } catch (thrown) {
      if (thrown instanceof Unreachable) return; // the stream will come back once more
    }
    if (job !== this.#job || !this.running) return;
    if (stands?.state === 'waiting' || stands?.state === 'running') {
      this.share = stands.share;
      this.what = stands.what;
    } else if (this.asked !== undefined) await this.run(this.asked);
  }

  #part(job: string, answer: A): void {
    if (job === this.#job) this.#take(answer);
    else if (this.running && this.#job === '') this.#early.set(job, { answer, done: false, problem: undefined });
  }

  #done(job: string, answer: A | undefined, problem: unknown): void {
    if (job !== this.#job) {
      if (this.running && this.#job === '') this.#early.set(job, { answer, done: true, problem });
      return;
    }
    if (answer !== undefined) this.#take(answer);
    this.problem = problem == null ? undefined : new ProblemError(problem as Problem);
    this.#end();
    this.share = 1;
  }

  #end(): void {
    this.running = false;
    this.ended = true;
  }
}
