// Photos on their way into the book: one after the other, each tried again with the same token until it is kept or
// refused. Going to another screen does not stop them.

import type { BookDoneAnswer } from '../made/book_done';
import { letters } from '../wire/client';
import { photoDoor, type SendPhoto } from '../wire/photo_door';
import { look, type Looked, type PhotoType } from '../wire/photo_file';
import { ProblemError, Unreachable, sayProblem } from '../wire/problem';
import { session } from './session.svelte';

/** waiting: its turn comes; away: the program did not answer; refused: it says why; kept: in the book; there: it was
 * in the book before. */
export type Stage = 'waiting' | 'sending' | 'away' | 'refused' | 'kept' | 'there';

export interface Coming {
  key: number;
  saw: string;
  name: string;
  stage: Stage;
  /** sent of it, 0 to 1 */
  share: number;
  /** why it is not in the book; empty: nothing is wrong */
  says: string;
  /** id in the book, once it is kept */
  photo: string;
}

interface Waiting {
  file: Blob;
  type: PhotoType;
  token: string;
}

const pauses = [400, 1500, 4000];

/** Whether the same photo may go through a moment later: the door is busy, or too much was written in this minute. */
const isPassing = (thrown: unknown) => thrown instanceof Unreachable || (thrown instanceof ProblemError && [408, 429, 503].includes(thrown.status));

export class PhotoQueue {
  coming = $state<Coming[]>([]);
  readonly #files = new Map<number, Waiting>();
  #last = 0;
  #working = false;

  constructor(
    private readonly send: SendPhoto = photoDoor(),
    private readonly kept: (number?: number) => void = (number) => session.keep(number),
    private readonly pause: (ms: number) => Promise<void> = (ms) => new Promise((done) => setTimeout(done, ms)),
    private readonly looked: (file: Blob) => Promise<Looked> = look,
  ) {}

  of(saw: string): Coming[] {
    return this.coming.filter((one) => one.saw === saw);
  }

  /** Something of it is not in the book yet and will be lost with the page. */
  get open(): boolean {
    return this.coming.some((one) => one.stage === 'waiting' || one.stage === 'sending' || one.stage === 'away');
  }

  /** Takes files in, in their order; what cannot be a photo is said at once and never sent. */
  async add(saw: string, files: Iterable<File>): Promise<void> {
    for (const file of files) {
      const key = ++this.#last;
      const { type, says } = await this.looked(file);
      if (type !== undefined && says === '') this.#files.set(key, { file, type, token: letters() });
      this.coming.push({ key, saw, name: file.name, stage: says === '' ? 'waiting' : 'refused', share: 0, says, photo: '' });
    }
    await this.#work();
  }

  /** Tries those again that the program did not answer. */
  async again(): Promise<void> {
    for (const one of this.coming) {
      if (one.stage !== 'away') continue;
      one.stage = 'waiting';
      one.says = '';
    }
    await this.#work();
  }

  /** Takes one off the list; what is being sent stays. */
  drop(key: number): void {
    if (this.coming.some((one) => one.key === key && one.stage === 'sending')) return;
    this.#files.delete(key);
    this.coming = this.coming.filter((one) => one.key !== key);
  }

  /** The saw shows these photos by now: they need no place in the queue. */
  seen(photos: readonly string[]): void {
    if (this.coming.some((one) => one.stage === 'kept' && photos.includes(one.photo)))
      this.coming = this.coming.filter((one) => one.stage !== 'kept' || !photos.includes(one.photo));
  }

  async #work(): Promise<void> {
    if (this.#working) return;
    this.#working = true;
    for (;;) {
      const next = this.coming.find((one) => one.stage === 'waiting');
      if (next === undefined) break;
      if (!(await this.#one(next))) break; // the others would wait as long
    }
    this.#working = false;
  }

  #in(one: Coming, done: BookDoneAnswer): void {
    one.photo = done.added[0] ?? '';
    one.share = 1;
    const there = done.action === null && one.photo !== '';
    one.stage = there ? 'there' : 'kept';
    if (there) one.says = done.notices.at(-1) ?? '';
    this.kept(done.action?.number);
    if (one.photo === '') this.drop(one.key); // kept by a try whose answer was lost
  }

  /** Sends one; answers whether the program answered. */
  async #one(one: Coming): Promise<boolean> {
    one.stage = 'sending';
    const { file, type, token } = this.#files.get(one.key)!;
    for (let turn = 0; ; ++turn) {
      one.share = 0;
      try {
        const done = await this.send(file, { saw: one.saw, token, type }, (share) => (one.share = share));
        this.#files.delete(one.key);
        this.#in(one, done);
        return true;
      } catch (thrown) {
        const pause = pauses[turn];
        if (isPassing(thrown) && pause !== undefined) {
          await this.pause(pause);
          continue;
        }
        one.stage = isPassing(thrown) ? 'away' : 'refused';
        one.says = thrown instanceof Unreachable ? 'Not in the book yet: the program does not answer.' : sayProblem(thrown);
        if (one.stage === 'refused') this.#files.delete(one.key);
        return one.stage === 'refused';
      }
    }
  }
}

export const photoQueue = new PhotoQueue();
