// What stands between the page and the program right now.

import { client } from '../wire/client';
import { events, type Changed } from '../wire/events';
import type { Problem } from '../wire/problem';
import { place } from './place.svelte';

class Session {
  /** no entry yet, or it is over */
  locked = $state(false);
  ready = $state(false);
  /** the demo workshop is open, not one's own book */
  demo = $state(false);
  /** the event stream stands */
  line = $state(true);
  /** newest number of the journal; screens ask again when it grows */
  last = $state(0);
  epoch = $state(0);
  /** when this page kept something last */
  kept = $state.raw<Date | undefined>(undefined);

  async start(): Promise<void> {
    client.onLocked = () => (this.locked = true);
    client.onEpoch = (epoch) => this.#other(epoch);
    events.onLine = (standing) => (this.line = standing);
    events.on('hello', (told) => this.hear(told));
    events.on('book', (told) => this.hear(told));
    events.on('bye', () => (this.line = false));
  /** why the book cannot be read right now */
  broken = $state.raw<Problem | undefined>(undefined);
    try {
      const entered = await client.enter();
      if (entered !== undefined) this.hear(entered);
    } catch {
      this.locked = true;
    client.onBroken = (problem) => {
      if (problem?.detail !== this.broken?.detail) this.broken = problem;
    };
    }
    if (!this.locked) events.start();
    this.ready = true;
  }

  /** The state of the open book, as an entry or an event tells it. */
  hear(told: Changed): void {
    if (told.epoch !== undefined) {
      client.learn(told.epoch);
      if (this.epoch === 0) this.epoch = told.epoch;
    }
    if (told.demo !== undefined) this.demo = told.demo;
    this.last = told.last;
  }

  /** Another book is open: its saws have other names. */
  #other(epoch: number): void {
    this.epoch = epoch;
    this.kept = undefined;
    if (place.now.saw !== '') place.go({ at: 'bench', saw: '', cuts: '', field: '', other: '' });
  }

  /** Something was kept in the book. */
  keep(number?: number): void {
    this.kept = new Date();
    if (number !== undefined && number > this.last) this.last = number;
  }
}

export const session = new Session();
