// What the program tells by itself. The stream closes with the tab out of sight and comes back with it.

/** State of the book that is open. */
export interface Changed {
  last: number;
  epoch?: number;
  demo?: boolean;
}

export interface Told {
  hello: Changed & { jobs?: { job: string; name: string; share: number }[]; here?: { role: string; name: string } };
  book: Changed;
  /** to the machine's own pages: who may come in by the network has changed */
  network: Record<string, never>;
  job: { job: string; share: number; what: string };
  part: { job: string; answer: unknown };
  done: { job: string; answer?: unknown; problem?: unknown };
  bye: Record<string, never>;
}

export type Kind = keyof Told;
type Hear = { [K in Kind]: Set<(told: Told[K]) => void> };

/** As much of EventSource as is used here. */
export interface Source {
  addEventListener(kind: string, hear: (event: MessageEvent<string>) => void): void;
  onopen: ((event: Event) => void) | null;
  onerror: ((event: Event) => void) | null;
  close(): void;
}

const kinds: Kind[] = ['hello', 'book', 'network', 'job', 'part', 'done', 'bye'];

export class Events {
  /** told whether the stream stands */
  onLine: (standing: boolean) => void = () => {};
  readonly #hear: Hear = { hello: new Set(), book: new Set(), network: new Set(), job: new Set(), part: new Set(), done: new Set(), bye: new Set() };
  #source: Source | undefined;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #wait = 500;
  #wanted = false;

  constructor(private readonly open: () => Source = () => new EventSource('/api/events')) {}

  on<K extends Kind>(kind: K, hear: (told: Told[K]) => void): () => void {
    this.#hear[kind].add(hear);
    return () => this.#hear[kind].delete(hear);
  }

  /** Opens the stream and keeps it while the page is in sight. */
  start(page: Document = document): () => void {
    const look = () => (page.hidden ? this.#end() : this.#begin());
    page.addEventListener('visibilitychange', look);
    look();
    return () => {
      page.removeEventListener('visibilitychange', look);
      this.#end();
    };
  }

  #begin(): void {
    this.#wanted = true;
    if (this.#source !== undefined) return;
    const source = this.open();
    this.#source = source;
    source.onopen = () => {
      this.#wait = 500;
      this.onLine(true);
    };
    source.onerror = () => this.#again();
    for (const kind of kinds) source.addEventListener(kind, (event) => this.#tell(kind, event.data));
  }

  #end(): void {
    this.#wanted = false;
    clearTimeout(this.#timer);
    this.#source?.close();
    this.#source = undefined;
  }

  #again(): void {
    this.#source?.close();
    this.#source = undefined;
    this.onLine(false);
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => this.#wanted && this.#begin(), this.#wait);
    this.#wait = Math.min(this.#wait * 2, 15_000);
  }

  #tell<K extends Kind>(kind: K, text: string): void {
    let told: Told[K];
    try {
      told = JSON.parse(text || '{}') as Told[K];
    } catch {
      return;
    }
    for (const hear of this.#hear[kind]) hear(told);
  }
}

export const events = new Events();
