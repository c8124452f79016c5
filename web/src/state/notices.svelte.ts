// Short words at the foot of the page: what was kept, what was undone, what went wrong.

export interface Notice {
  id: number;
  text: string;
  /** second line: the values of an undo */
  more: string;
  trouble: boolean;
}

class Notices {
  now = $state<Notice | undefined>(undefined);
  #last = 0;
  #timer: ReturnType<typeof setTimeout> | undefined;

  /** Stays until the next one; trouble stays until it is put away. */
  say(text: string, more = '', trouble = false): void {
    this.now = { id: ++this.#last, text, more, trouble };
    clearTimeout(this.#timer);
    if (!trouble) this.#timer = setTimeout(() => this.away(), 12_000);
  }

  away(): void {
    this.now = undefined;
  }
}

export const notices = new Notices();
