// One question in flight and the newest one waiting: a finger that drags never builds a queue, and the old answer
// stays, marked stale, until the new one is here.

export type Work<Q, A> = (question: Q, signal: AbortSignal) => Promise<A>;

/** Plain queue; `Live` below shows it to a screen. */
export class Newest<Q, A> {
  #flying: AbortController | undefined;
  #waiting: { question: Q } | undefined;
  #closed = false;
  #rest: (() => void)[] = [];

  constructor(
    private readonly work: Work<Q, A>,
    private readonly deliver: (answer: A, question: Q, settled: boolean) => void,
    private readonly fail: (thrown: unknown, question: Q, settled: boolean) => void,
  ) {}

  get busy(): boolean {
    return this.#flying !== undefined;
  }

  ask(question: Q): void {
    if (this.#closed) return;
    if (this.#flying !== undefined) this.#waiting = { question };
    else void this.#send(question);
  }

  /** Comes when nothing is in flight and nothing waits. */
  idle(): Promise<void> {
    return this.busy ? new Promise((done) => this.#rest.push(done)) : Promise.resolve();
  }

  close(): void {
    this.#closed = true;
    this.#waiting = undefined;
    this.#flying?.abort();
    this.#tellRest();
  }

  #tellRest(): void {
    const rest = this.#rest;
    this.#rest = [];
    for (const done of rest) done();
  }

  async #send(question: Q): Promise<void> {
    const flight = new AbortController();
    this.#flying = flight;
    let told: () => void;
    try {
      const answer = await this.work(question, flight.signal);
      told = () => this.deliver(answer, question, this.#waiting === undefined);
    } catch (thrown) {
      told = () => this.fail(thrown, question, this.#waiting === undefined);
    }
    this.#flying = undefined;
    if (this.#closed) return;
    told();
    const next = this.#waiting;
    this.#waiting = undefined;
    if (next !== undefined) void this.#send(next.question);
    else this.#tellRest();
  }
}

/** What a screen shows of a question asked again and again. */
export class Live<Q, A> {
  answer = $state.raw<A | undefined>(undefined);
  /** the question that `answer` belongs to */
  question = $state.raw<Q | undefined>(undefined);
  stale = $state(false);
  problem = $state.raw<unknown>(undefined);
  readonly #queue: Newest<Q, A>;

  constructor(work: Work<Q, A>) {
    this.#queue = new Newest<Q, A>(
      work,
      (answer, question, settled) => {
        this.answer = answer;
        this.question = question;
        this.problem = undefined;
        this.stale = !settled;
      },
      (thrown, _question, settled) => {
        this.problem = thrown;
        this.stale = !settled || this.answer !== undefined;
      },
    );
  }

  want(question: Q): void {
    this.stale = true;
    this.#queue.ask(question);
  }

  /** Asks, and comes when the answer, or a newer one, is there. */
  async fresh(question: Q): Promise<void> {
    this.want(question);
    await this.#queue.idle();
  }

  close(): void {
    this.#queue.close();
  }
}
