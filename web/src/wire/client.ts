// The one door to the program. Questions change nothing and may be asked again; writes carry a token, so that a write
// whose answer was lost is done once only.

import type { Answers, AskName, DoName, Done, RunName, SheetName } from './asks';
import { type Problem, ProblemError, Unreachable, isBroken, problemOf } from './problem';

/** Letters that nobody else has: client of a tab, token of a write. */
export function letters(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(12));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
}

/** The door is open. */
export interface Entered {
  epoch: number;
  last: number;
  demo: boolean;
  author: string;
  role?: string;
}

/** The name of this tab; a reload keeps it, so that what was done before can still be undone. */
function tabName(): string {
  try {
    const known = sessionStorage.getItem('portwright.tab') ?? '';
    const name = /^[0-9a-f]{24}$/.test(known) ? known : letters();
    sessionStorage.setItem('portwright.tab', name);
    return name;
  } catch {
    return letters();
  }
}

export interface AskOptions {
  signal?: AbortSignal;
}

export interface DoOptions {
  /** revision of the reading set that the page shows */
  base?: string;
  /** given by the helper; a test may set it */
  token?: string;
}

export type Fetch = (input: string, init: RequestInit) => Promise<Response>;

const patience = [150, 600, 1500];
/** questions that only a sound book answers */
const readsBook = /^ask\/(bench|saw|form|study|bore|journal)$/;

/** Takes a one-time token out of an address fragment: `#token=...` or the bare token. */
export function tokenOf(fragment: string): string {
  const bare = fragment.replace(/^#/, '');
  const named = new URLSearchParams(bare).get('token');
  if (named !== null) return named;
  return /^[\w-]{16,}$/.test(bare) ? bare : '';
}

/** Takes a pairing code out of an address fragment: `#pair=...`. */
export function pairingOf(fragment: string): string {
  const code = new URLSearchParams(fragment.replace(/^#/, '')).get('pair') ?? '';
  return /^[0-9a-f]{32}$/.test(code) ? code : '';
}

export class Client {
  /** grows when the server opens another book */
  epoch = 0;
  readonly tab = tabName();
  /** told when the book was changed for another one */
  onEpoch: (epoch: number) => void = () => {};
  /** told when the session is over and a new entry is needed */
  onLocked: () => void = () => {};
  /** told when the book cannot be read, and when it was read after all */
  onBroken: (problem: Problem | undefined) => void = () => {};
  readonly #fetch: Fetch;
  readonly #pause: (ms: number) => Promise<void>;

  constructor(
    fetcher: Fetch = (input, init) => fetch(input, init),
    pause: (ms: number) => Promise<void> = (ms) => new Promise((done) => setTimeout(done, ms)),
  ) {
    this.#fetch = fetcher;
    this.#pause = pause;
  }

  /** Exchanges the token of the fragment for a cookie. The fragment leaves the address before anything is sent.
   * Nothing when the address had no token: a reload, with the cookie there already. */
  async enter(place: Location = location, past: History = history): Promise<Entered | undefined> {
    const token = tokenOf(place.hash);
    if (place.hash !== '') past.replaceState(past.state, '', place.pathname + place.search);
    if (token === '') return undefined;
    const entered = (await (await this.#post('enter', { token }, {})).json()) as Entered;
    this.learn(entered.epoch);
    return entered;
  }

  /** Exchanges the code that the machine shows for a cookie of this device. Throws ProblemError in plain words. */
  async pair(code: string, name: string): Promise<Entered> {
    const entered = (await (await this.#post('pair', { code, name }, {}, undefined, false)).json()) as Entered;
    this.learn(entered.epoch);
    return entered;
  }

  /** Asks; the same question may be sent again when the program was busy or the network gone for a moment. */
  async ask<K extends AskName>(name: K, question: object = {}, options: AskOptions = {}): Promise<Answers[K]> {
    return (await this.#again(`ask/${name}`, question, {}, options.signal)).json() as Promise<Answers[K]>;
  }

  /** Writes. Throws ProblemError with `conflict` when the same field was changed since `base`. */
  async do<K extends DoName>(name: K, what: object = {}, options: DoOptions = {}): Promise<Done[K]> {
    const body: Record<string, unknown> = { ...what, client: this.tab, token: options.token ?? letters() };
    const headers: Record<string, string> = {};
    if (options.base !== undefined) {
      body['base'] = options.base;
      headers['If-Match'] = `"${options.base}"`;
    }
    return (await this.#again(`do/${name}`, body, headers)).json() as Promise<Done[K]>;
  }

  /** Starts long work; its answers come as events. */
  async run(name: RunName, question: object = {}): Promise<string> {
    const answer = await this.#post(`run/${name}`, { ...question, client: this.tab }, {});
    return ((await answer.json()) as { job: string }).job;
  }

  async stop(job: string): Promise<void> {
    await this.#post('stop', { job }, {});
  }

  /** A sheet to print: SVG or PDF. */
  async sheet(name: SheetName, question: object = {}): Promise<Blob> {
    return (await this.#again(`sheet/${name}`, question, {})).blob();
  }

  async #again(path: string, body: object, headers: Record<string, string>, signal?: AbortSignal): Promise<Response> {
    for (let turn = 0; ; ++turn) {
      try {
        return await this.#post(path, body, headers, signal);
      } catch (thrown) {
        const worth = thrown instanceof Unreachable || (thrown instanceof ProblemError && thrown.status === 503);
        const pause = patience[turn];
        if (!worth || pause === undefined || signal?.aborted) throw thrown;
        await this.#pause(pause);
      }
    }
  }

  async #post(path: string, body: object, headers: Record<string, string>, signal?: AbortSignal, locks = true): Promise<Response> {
    const init: RequestInit = {
      method: 'POST',
      headers: {
        'Content-Type': 'application/json',
        'X-Portwright': '1',
        ...(this.epoch > 0 ? { 'X-Portwright-Epoch': String(this.epoch) } : {}),
        ...headers,
      },
      body: JSON.stringify(body),
      credentials: 'same-origin',
      cache: 'no-store',
    };
    if (signal !== undefined) init.signal = signal;
    if (path === 'stop') init.keepalive = true; // also when the page is on its way out
    const answer = await this.#send(`/api/${path}`, init);
    this.learn(Number(answer.headers.get('X-Portwright-Epoch') ?? 0));
    if (answer.ok) {
      if (readsBook.test(path)) this.onBroken(undefined);
      return answer;
    }
    const problem = new ProblemError(problemOf(answer.status, await answer.text()));
    if (answer.status === 401 && locks) this.onLocked();
    if (isBroken(problem.problem) || (path === 'ask/bench' && answer.status === 404)) this.onBroken(problem.problem);
    throw problem;
  }

  async #send(path: string, init: RequestInit): Promise<Response> {
    try {
      return await this.#fetch(path, init);
    } catch (thrown) {
      if (thrown instanceof DOMException && thrown.name === 'AbortError') throw thrown;
      throw new Unreachable();
    }
  }

  /** The epoch as an answer or an event says it. */
  learn(epoch: number): void {
    if (!(epoch > 0) || epoch === this.epoch) return;
    const first = this.epoch === 0;
    this.epoch = epoch;
    if (!first) this.onEpoch(epoch);
  }
}

export const client = new Client();
