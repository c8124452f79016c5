// Strips of the saws of a list: asked for one after the other and kept while the saw is the same.

import { client } from '../wire/client';
import type { BoreAnswer } from '../wire/asks';

interface Key {
  id: string;
  changed: string;
}

const name = (saw: Key) => `${saw.id} ${saw.changed}`;

class Bores {
  #kept = $state.raw<Record<string, BoreAnswer | undefined>>({});
  #asked = new Set<string>();
  #waiting: Key[] = [];
  #busy = false;

  of(saw: Key): BoreAnswer | undefined {
    return this.#kept[name(saw)];
  }

  /** Those of a list; the ones asked for before and not wanted any more are left out. */
  want(saws: readonly Key[]): void {
    this.#waiting = saws.filter((saw) => !this.#asked.has(name(saw)));
    if (!this.#busy) void this.#work();
  }

  async #work(): Promise<void> {
    this.#busy = true;
    for (let next = this.#waiting.shift(); next !== undefined; next = this.#waiting.shift()) {
      this.#asked.add(name(next));
      let bore: BoreAnswer | undefined;
      try {
        bore = await client.ask('bore', { saw: next.id });
      } catch {
        bore = undefined; // a saw with too little read has no strip
      }
      this.#kept = { ...this.#kept, [name(next)]: bore };
    }
    this.#busy = false;
  }
}

export const bores = new Bores();
