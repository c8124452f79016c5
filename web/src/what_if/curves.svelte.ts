// The curves of the what-if in hand and of the other. One long work at a time: the one in hand goes first, and whoever
// turns a cut meanwhile is not kept waiting by the other.

import { Job } from '../draw/job.svelte';
import { isStale } from '../draw/stale';
import type { CurveAnswer } from '../made/curve';
import type { Question } from './trial.svelte';

type CurveJob = Job<Question, CurveAnswer>;

const rest = 350; // so long a cut stands still before its curve is asked for [ms]

/** Begun by the screen while it is set up. */
export class Curves {
  readonly hand: CurveJob;
  readonly other: CurveJob;
  /** told to stop; the next question begins anew */
  #halted = $state(false);
  /** the other was stopped to let the one in hand pass */
  #cutShort = false;
  #pause: ReturnType<typeof setTimeout> | undefined;

  readonly #otherAsked = $derived.by((): Question | undefined => (this.second.there ? { ...this.first.asked, cuts: this.second.cuts } : undefined));
  readonly stale = $derived.by(() => isStale(this.hand.question, this.first.asked) || (this.hand.answer !== undefined && this.first.stepper.stale));
  /** points of the other's curve, while they are those of its cuts */
  readonly otherPoints = $derived.by(() => {
    const asked = this.#otherAsked;
    if (asked === undefined || this.other.question === undefined || isStale(this.other.question, asked)) return [];
    return this.other.answer?.points ?? [];
  });
  readonly running = $derived.by(() => this.hand.running || this.other.running);

  /** How far the curves are, in words. */
  readonly says = $derived.by(() => {
    const curve = this.hand.answer;
    if (curve === undefined) return '';
    if (this.stale) return 'Of the cuts before: the new curve is on its way.';
    if (this.hand.running) return `${curve.doing.charAt(0).toUpperCase()}${curve.doing.slice(1)}, ${Math.round(curve.share * 100)} % ready.`;
    if (this.other.running) return `Settled; the other is ${Math.round((this.other.answer?.share ?? 0) * 100)} % ready.`;
    return curve.stopped || this.#halted ? 'Stopped; what was ready is here.' : 'Settled.';
  });

  constructor(
    private readonly first: { readonly asked: Question; readonly stepper: { readonly stale: boolean } },
    private readonly second: { readonly there: boolean; readonly cuts: string },
    job: () => CurveJob = () => new Job('curve'),
  ) {
    this.hand = job();
    this.other = job();
    $effect(() => {
      const question = first.asked;
      clearTimeout(this.#pause);
      this.#pause = setTimeout(() => this.#begin(question), rest);
      return () => clearTimeout(this.#pause);
    });
    $effect(() => {
      const question = this.#otherAsked;
      const busy = !this.hand.ended || isStale(this.hand.asked, first.asked);
      if (question === undefined) this.other.stop();
      else if (!busy && (this.other.asked === undefined || isStale(this.other.asked, question) || this.#cutShort)) {
        this.#cutShort = false;
        void this.other.run(question);
      }
    });
    $effect(() => () => {
      this.hand.close();
      this.other.close();
    });
  }

  #begin(question: Question): void {
    this.#halted = false;
    if (this.other.running) {
      this.#cutShort = true;
      this.other.stop();
    }
    void this.hand.run(question);
  }

  /** Stops both; what was ready stays. */
  stop(): void {
    this.#halted = true;
    this.hand.stop();
    this.other.stop();
  }
}
