// What the metal stands, asked in turn: the bottom end first, then heat, then the chain when somebody asks for it.
// One long work at a time.

import { Job } from '../draw/job.svelte';
import { isStale } from '../draw/stale';
import type { ChainAnswer } from '../made/chain';
import type { HeatAnswer } from '../made/heat';
import type { RevsAnswer } from '../made/revs';

export interface Question {
  saw: string;
  cuts: string;
  units: string;
}

export interface AtSpeed extends Question {
  /** empty: as read */
  speed: string;
}

export interface Jobs {
  revs: Job<AtSpeed, RevsAnswer>;
  heat: Job<AtSpeed, HeatAnswer>;
  chain: Job<Question, ChainAnswer>;
}

const rest = { first: 120, later: 400 }; // so long a question stands still before it is asked [ms]

/** Begun by the screen while it is set up. */
export class Stands {
  readonly revs: Jobs['revs'];
  readonly heat: Jobs['heat'];
  readonly chain: Jobs['chain'];
  /** somebody asked for the chain, and it waits for its turn */
  chainWanted = $state(false);
  /** heat waits for the bottom end that was begun */
  #heatDue = $state(false);
  /** the book's state when the chain was begun */
  #chainTurn = $state(0);
  #begun = false;
  #pause: ReturnType<typeof setTimeout> | undefined;

  readonly revsStale = $derived.by(() => this.revs.running || isStale(this.revs.question, this.first.asked));
  readonly heatStale = $derived.by(() => this.heat.running || this.#heatDue || isStale(this.heat.question, this.first.asked));
  readonly chainStale = $derived.by(() => isStale(this.chain.question, this.#bare()) || (this.chain.answer !== undefined && this.#chainTurn !== this.first.turn));

  constructor(
    private readonly first: { readonly asked: AtSpeed; readonly turn: number },
    jobs: () => Jobs = () => ({ revs: new Job('revs'), heat: new Job('heat'), chain: new Job('chain') }),
  ) {
    ({ revs: this.revs, heat: this.heat, chain: this.chain } = jobs());
    $effect(() => {
      void first.turn; // the book was changed
      const question = first.asked;
      clearTimeout(this.#pause);
      this.#pause = setTimeout(() => this.#begin(question), this.#begun ? rest.later : rest.first);
      return () => clearTimeout(this.#pause);
    });
    $effect(() => {
      const question = this.revs.asked;
      if (question === undefined || !this.revs.ended || this.chain.running || isStale(question, first.asked) || !this.#heatDue) return;
      this.#heatDue = false;
      void this.heat.run(question);
    });
    $effect(() => {
      const question = this.revs.asked;
      if (!this.chainWanted || question === undefined || !this.revs.ended || this.heat.running || isStale(question, first.asked)) return;
      this.chainWanted = false;
      this.#chainTurn = first.turn;
      void this.chain.run(this.#bare());
    });
    $effect(() => () => {
      this.revs.close();
      this.heat.close();
      this.chain.close();
    });
  }

  /** Asks for the chain; it begins when nothing else is at work. */
  findSprocket(): void {
    this.chainWanted = true;
  }

  stopChain(): void {
    this.chainWanted = false;
    this.chain.stop();
  }

  #bare(): Question {
    const { saw, cuts, units } = this.first.asked;
    return { saw, cuts, units };
  }

  #begin(question: AtSpeed): void {
    this.#begun = true;
    this.heat.stop();
    this.#heatDue = true;
    if (this.chain.running && isStale(this.chain.asked, this.#bare())) this.stopChain();
    void this.revs.run(question);
  }
}
