// How far the change can be told: the same cuts under many sets of assumptions, asked for by hand, as it takes a minute.

import { Job } from '../draw/job.svelte';
import { isStale } from '../draw/stale';
import type { RunAnswer, RunChange } from '../made/run';
import { numberText } from '../draw/ticks';
import type { Question } from './trial.svelte';

/** One speed's change in power with its range [kW]. */
export interface Told {
  rpm: number;
  low: number;
  high: number;
  apart: boolean;
}

/** Begun by the screen while it is set up. */
export class Ranges {
  readonly job: Job<Question, RunAnswer>;
  readonly stale = $derived.by(() => isStale(this.job.question, this.trial.asked));
  readonly ofThese = $derived.by(() => this.job.answer !== undefined && !this.job.answer.stopped && !this.stale);
  readonly changes: RunChange[] = $derived.by(() => (this.ofThese ? (this.job.answer?.changes ?? []).filter((one) => one.figure === 'run.power' || one.figure === 'run.torque') : []));
  /** what the curve draws */
  readonly told: Told[] = $derived.by(() => this.changes.filter((one) => one.figure === 'run.power').map((one) => ({ rpm: one.rpm, low: one.low, high: one.high, apart: one.distinguishable })));
  readonly says = $derived.by(() => {
    if (this.job.running) return `${this.job.what === '' ? 'Beginning' : this.job.what}, ${Math.round(this.job.share * 100)} % ready.`;
    if (this.job.answer !== undefined && this.stale) return 'The ranges that were run are of other cuts.';
    return '';
  });

  constructor(
    private readonly trial: { readonly asked: Question },
    job: () => Job<Question, RunAnswer> = () => new Job('bands'),
  ) {
    this.job = job();
    // Ranges of cuts that are no longer there are not worth their minute.
    $effect(() => {
      if (this.job.running && isStale(this.job.asked, this.trial.asked)) this.job.stop();
    });
    $effect(() => () => this.job.close());
  }

  begin(): void {
    void this.job.run(this.trial.asked);
  }
}

/** "+0.12 kW (+5 %)" beside "9,000 rpm", in words for a list. */
export function changeWords(change: RunChange): { at: string; text: string; range: string } {
  return { at: `${numberText(change.rpm, 0)} rpm`, text: change.text, range: change.range };
}
