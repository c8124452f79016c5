// What stands between the page and the program right now.

import { client, pairingOf } from '../wire/client';
import { events, type Changed } from '../wire/events';
import type { Problem } from '../wire/problem';
import { place } from './place.svelte';

/** Whether the page came from another machine: the machine itself is only ever opened by these names. */
export const isElsewhere = (host: string): boolean => !['127.0.0.1', 'localhost', '[::1]'].includes(host);

class Session {
  /** no entry yet, or it is over */
  locked = $state(false);
  ready = $state(false);
  /** this page is on a device: it looks and adds; the machine does the rest */
  device = $state(false);
  /** what the device is called; empty on the machine */
  name = $state('');
  /** the code that the camera read; empty: it is typed */
  code = $state('');
  #begun = false;
  /** the demo workshop is open, not one's own book */
  demo = $state(false);
  /** the event stream stands */
  line = $state(true);
  /** newest number of the journal; screens ask again when it grows */
  last = $state(0);
  /** how often another book was opened under this page; screens begin anew then */
  books = $state(0);
  /** why the book cannot be read right now */
  broken = $state.raw<Problem | undefined>(undefined);
  /** when this page kept something last */
  kept = $state.raw<Date | undefined>(undefined);

  async start(): Promise<void> {
    client.onLocked = () => (this.locked = true);
    client.onBroken = (problem) => {
      if (problem?.detail !== this.broken?.detail) this.broken = problem;
    };
    client.onEpoch = () => this.#other();
    events.onLine = (standing) => (this.line = standing);
    events.on('hello', (told) => {
      this.hear(told);
      this.name = told.here?.name ?? '';
    });
    events.on('book', (told) => this.hear(told));
    events.on('bye', () => {
      this.line = false;
      if (this.device) client.ask('units', { text: '1 mm' }).catch(() => {}); // locks where this device was shown out
    });
    this.device = isElsewhere(location.hostname);
    if (this.device) this.code = pairingOf(location.hash);
    try {
      const entered = await client.enter();
      if (entered !== undefined) this.hear(entered);
      else if (this.code !== '') await client.ask('units', { text: '1 mm' }); // locks when this device is not paired
    } catch {
      this.locked = true;
    }
    if (!this.locked) this.#begin();
    this.ready = true;
  }

  #begin(): void {
    if (!this.#begun) events.start();
    this.#begun = true;
  }

  /** Brings a code to the machine. Throws what was wrong with it. */
  async pair(code: string, name: string): Promise<void> {
    this.hear(await client.pair(code, name));
    this.name = name;
    this.code = '';
    this.locked = false;
    this.#begin();
  }

  /** The state of the open book, as an entry or an event tells it. */
  hear(told: Changed): void {
    if (told.epoch !== undefined) client.learn(told.epoch);
    if (told.demo !== undefined) this.demo = told.demo;
    this.last = told.last;
  }

  /** Another book is open: its saws have other names. */
  #other(): void {
    this.books += 1;
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
