// A wish about the engine: cuts searched by the simulation. What was found stays while the wish is another one, marked;
// a search that was stopped goes on from what it knows.

import { Job } from '../draw/job.svelte';
import { isStale } from '../draw/stale';
import type { SeekAnswer, SeekKnob } from '../made/seek';
import { choices } from '../state/choices.svelte';
import { place } from '../state/place.svelte';
import { readFree, writeFree, type FreeCut } from './seek_words';

export interface SeekQuestion {
  saw: string;
  wish: string;
  free: string;
  step: string;
  chance: string;
  units: string;
}

interface Run extends SeekQuestion {
  memory: string;
  seconds: number | null;
}

/** Begun by the plan's screen while it is set up. */
export class Seek {
  readonly job: Job<Run, SeekAnswer>;
  readonly #of: () => string;
  /** [s] of searching; null: the program's own */
  readonly seconds: number | null = Number.parseFloat(place.now.seconds) || null;

  readonly asked: SeekQuestion = $derived.by(() => ({ saw: this.#of(), wish: place.now.wish, free: place.now.free, step: place.now.step, chance: place.now.chance, units: choices.units }));
  readonly answer = $derived.by(() => this.job.answer);
  readonly running = $derived.by(() => this.job.running);
  /** what is shown is of another wish, or of other free cuts */
  readonly stale = $derived.by(() => this.answer !== undefined && isStale(this.job.question, this.asked));
  /** it was stopped, or time ended it, and it can go on */
  readonly canGoOn = $derived.by(() => !this.running && !this.stale && (this.answer?.memory ?? '') !== '');

  readonly free: FreeCut[] = $derived.by(() => readFree(place.now.free));
  /** cuts that this saw has, once the program said so */
  knobs = $state.raw<SeekKnob[]>([]);

  constructor(of: () => string, job?: Job<Run, SeekAnswer>) {
    this.#of = of;
    this.job = job ?? new Job('seek');
    $effect(() => {
      const told = this.answer?.free ?? [];
      const known = new Set(this.knobs.map((one) => one.name));
      if (told.some((one) => !known.has(one.name))) this.knobs = [...this.knobs, ...told.filter((one) => !known.has(one.name))];
    });
    $effect(() => () => this.job.close());
  }

  start = (): void => void this.job.run({ ...this.asked, memory: '', seconds: this.seconds });

  goOn = (): void => void this.job.run({ ...this.asked, memory: this.answer?.memory ?? '', seconds: this.seconds });

  /** Ends the search and runs the ranges of what was found. */
  takeWhatThereIs = (): void => void this.job.run({ ...this.asked, memory: this.answer?.memory ?? '', seconds: 0.1 });

  stop = (): void => this.job.stop();

  turnFree(cuts: readonly FreeCut[]): void {
    place.go({ free: writeFree(cuts) }, true);
  }
}
