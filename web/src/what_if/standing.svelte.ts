// What the cuts do to what the metal stands: asked when the curve is drawn and nothing else is at work, the bottom end
// first, then heat. Without cuts there is nothing to hold against stock.

import { Job } from '../draw/job.svelte';
import { isStale } from '../draw/stale';
import type { HeatAnswer } from '../made/heat';
import type { RevsAnswer } from '../made/revs';
import type { Question } from './trial.svelte';

interface Brief extends Question {
  /** places and figures alone */
  brief: boolean;
}

export interface StandingJobs {
  revs: Job<Question, RevsAnswer>;
  heat: Job<Brief, HeatAnswer>;
}

interface Curves {
  readonly hand: { readonly ended: boolean; readonly asked: Question | undefined };
  readonly running: boolean;
}

/** Begun by the screen while it is set up. */
export class Standing {
  readonly revs: StandingJobs['revs'];
  readonly heat: StandingJobs['heat'];
  readonly #brief: Brief = $derived.by(() => ({ ...this.trial.asked, brief: true }));
  readonly revsStale = $derived.by(() => isStale(this.revs.question, this.trial.asked));
  readonly heatStale = $derived.by(() => isStale(this.heat.question, this.#brief));
  /** nothing else is at work, and the curve is of these cuts */
  readonly #free = $derived.by(() => this.curves.hand.ended && !this.curves.running && !this.ranges.job.running && this.curves.hand.asked !== undefined && !isStale(this.curves.hand.asked, this.trial.asked));
  readonly says = $derived.by(() => {
    if (this.revs.running || this.heat.running) return this.revs.answer === undefined ? 'On its way.' : this.revsStale || this.heatStale ? 'Of the cuts before: new ones are on their way.' : 'Heat is on its way.';
    return this.revs.answer === undefined && this.revs.problem === undefined ? 'Comes when the curve is drawn.' : this.revsStale ? 'Of the cuts before, until the curve is drawn.' : '';
  });

  constructor(
    private readonly trial: { readonly asked: Question },
    private readonly curves: Curves,
    private readonly ranges: { readonly job: { readonly running: boolean } },
    jobs: () => StandingJobs = () => ({ revs: new Job('revs'), heat: new Job('heat') }),
  ) {
    ({ revs: this.revs, heat: this.heat } = jobs());
    // Cuts that are no longer there, and what makes way for the curve.
    $effect(() => {
      if (this.#free && trial.asked.cuts !== '') return;
      if (this.revs.running) this.revs.stop();
      if (this.heat.running) this.heat.stop();
    });
    $effect(() => {
      const question = trial.asked;
      if (!this.#free || question.cuts === '' || this.revs.running) return;
      if (!this.#done(this.revs, question)) void this.revs.run(question);
      else if (!this.heat.running && !this.#done(this.heat, this.#brief)) void this.heat.run(this.#brief);
    });
    $effect(() => () => {
      this.revs.close();
      this.heat.close();
    });
  }

  /** Whether a job came to its end with this question. */
  #done<Q extends object>(job: { ended: boolean; asked: Q | undefined }, question: Q): boolean {
    return job.ended && job.asked !== undefined && !isStale(job.asked, question);
  }
}
