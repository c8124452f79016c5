// The second what-if, beside the one in hand: its windows, its changes from stock, and what parts the two.

import type { Beside } from '../draw/bore_places';
import { pageFigures } from '../draw/page_of_figures';
import { type TwoRow, twoRows } from '../draw/two_what_ifs';
import type { BoreAnswer } from '../made/bore';
import type { CompareAnswer } from '../made/compare';
import type { StudyAnswer } from '../made/study';
import { choices } from '../state/choices.svelte';
import { place } from '../state/place.svelte';
import { session } from '../state/session.svelte';
import { client } from '../wire/client';
import { Live } from '../wire/newest.svelte';
import type { Question, Trial } from './trial.svelte';

interface Both extends Question {
  saw_b: string;
  cuts_b: string;
}

/** Begun by the screen while it is set up. */
export class Other {
  readonly #studies = new Live<Question, StudyAnswer>((question, signal) => client.ask('study', question, { signal }));
  readonly #bores = new Live<Question, BoreAnswer>((question, signal) => client.ask('bore', question, { signal }));
  readonly #compares = new Live<Both, CompareAnswer>((question, signal) => client.ask('compare', question, { signal }));

  readonly cuts = $derived(place.now.other);
  readonly there = $derived(this.cuts !== '');
  readonly stale = $derived(this.#studies.stale || this.#compares.stale);
  /** its windows; none until they are those of its cuts */
  readonly beside = $derived.by((): Beside | undefined => {
    const bore = this.there && this.#bores.question?.cuts === this.cuts ? this.#bores.answer : undefined;
    return bore === undefined ? undefined : { windows: bore.windows, shift_mm: bore.stock?.shift_mm ?? 0 };
  });
  readonly ready = $derived(this.there && this.#studies.answer !== undefined && this.#compares.answer !== undefined);

  constructor(private readonly hand: Trial) {
    $effect(() => {
      void session.last;
      if (!this.there) return;
      const { saw, units, cuts } = hand.asked;
      const own = { saw, cuts: this.cuts, units };
      this.#bores.want(own);
      this.#studies.want(own);
      this.#compares.want({ saw, saw_b: saw, cuts, cuts_b: this.cuts, units: choices.units });
    });
    $effect(() => () => {
      this.#studies.close();
      this.#bores.close();
      this.#compares.close();
    });
  }

  /** Figures that either what-if moves: those of a builder's page, or every one. */
  rows(every: boolean): TwoRow[] {
    const own = this.hand.study?.figures ?? [];
    const all = twoRows(own, this.#studies.answer?.figures ?? [], this.#compares.answer?.figures ?? []);
    if (every) return all;
    const page = pageFigures(all, this.hand.exhausts);
    return page.length > 0 ? page : all.slice(0, 6);
  }

  /** The other comes into the hand, the one in hand beside it. */
  swap(): void {
    place.go({ cuts: place.now.other, other: place.now.cuts });
  }

  drop(): void {
    place.go({ other: '' });
  }
}
