// A rubbing in hand: what the program found on its photo, what a person adds, and what of it is in hand right now.

import type { BookDoneAnswer } from '../made/book_done';
import type { RubbingAnswer } from '../made/rubbing';
import type { Units } from '../state/choices.svelte';
import { client, type Client } from '../wire/client';
import { Live } from '../wire/newest.svelte';
import { type Grip, type Pair, type Size, cornerNames, freshCorners, pair, pixelsPerMm, turned, within } from './hand';

/** What a person adds to the photo; empty lists and texts leave it to the program. */
export interface Hints {
  corners: Pair[];
  inside: Pair[];
  points: Pair[];
  upright: Pair[];
  line: 'inner' | 'middle' | 'outer';
  across: string;
  down: string;
  taped: boolean;
  face: 'inside' | 'wall side';
}

export interface Question extends Hints {
  photo: string;
  port: string;
  units: Units;
}

/** A place that the next touch sets. */
export type Aim = '' | 'inside' | 'other inside' | 'upright';

const none = (): Hints => ({ corners: [], inside: [], points: [], upright: [], line: 'middle', across: '', down: '', taped: false, face: 'inside' });

// What was added to a photo stays while the page does: another screen and back loses nothing.
const left = new Map<string, { hints: Hints; port: string }>();

export class Rubbing {
  hints = $state<Hints>(none());
  port = $state('');
  /** in hand: moved by keys, by the pad, and under a finger */
  grip = $state.raw<Grip | undefined>(undefined);
  aim = $state<Aim>('');
  /** where a touch would set it */
  cross = $state.raw<Pair | undefined>(undefined);
  readonly found: Live<Question, RubbingAnswer>;
  #units: Units = 'shop';

  constructor(
    readonly photo: string,
    readonly size: Size,
    private readonly door: Pick<Client, 'ask' | 'do'> = client,
  ) {
    const known = left.get(photo);
    if (known !== undefined) {
      this.hints = structuredClone(known.hints);
      this.port = known.port;
    }
    this.found = new Live((question, signal) => this.door.ask('rubbing', question, { signal }));
  }

  get answer(): RubbingAnswer | undefined {
    return this.found.answer;
  }

  /** The square as it is drawn: put by hand, else found. */
  get corners(): Pair[] {
    return this.hints.corners.length > 0 ? this.hints.corners : (this.answer?.corners ?? []).map(pair);
  }

  /** Points of the outline as they are drawn: put by hand, else found. */
  get points(): Pair[] {
    return this.hints.points.length > 0 ? this.hints.points : (this.answer?.handles ?? []).map(pair);
  }

  get outline(): Pair[] {
    return (this.answer?.outline ?? []).map(pair);
  }

  get perMm(): number {
    return pixelsPerMm(this.answer?.scale ?? 0, this.size);
  }

  /** Asks with all that was added; the newest question wins. */
  ask(units: Units = this.#units): void {
    this.#units = units;
    left.set(this.photo, { hints: $state.snapshot(this.hints) as Hints, port: this.port });
    this.found.want({ photo: this.photo, port: this.port, units, ...($state.snapshot(this.hints) as Hints) });
  }

  /** Places of a kind, as they stand. */
  places(what: Grip['what']): Pair[] {
    return what === 'corner' ? this.corners : what === 'point' ? this.points : this.hints[what];
  }

  at(grip: Grip): Pair | undefined {
    return this.places(grip.what)[grip.index];
  }

  /** What a grip is called. */
  name(grip: Grip): string {
    if (grip.what === 'corner') return `Corner: ${cornerNames[grip.index]}`;
    if (grip.what === 'point') return `Point ${grip.index + 1} of ${this.points.length}`;
    if (grip.what === 'upright') return `Along the bore, end ${grip.index + 1}`;
    return this.hints.inside.length > 1 ? `Inside, opening ${grip.index + 1}` : 'Inside';
  }

  /** Puts a grip somewhere; nothing is asked yet. */
  put(grip: Grip, to: Pair): void {
    const all = [...this.places(grip.what)];
    all[grip.index] = within(to, this.size);
    if (grip.what === 'corner') this.hints.corners = all;
    else if (grip.what === 'point') this.hints.points = all;
    else this.hints[grip.what] = all;
    if (grip.what === 'inside') this.hints.points = []; // points of another outline
  }

  /** Moves a grip by millimetres and asks. */
  shift(grip: Grip, [x, y]: Pair): void {
    const at = this.at(grip);
    if (at === undefined) return;
    this.put(grip, [at[0] + x * this.perMm, at[1] + y * this.perMm]);
    this.ask();
  }

  /** Takes the next or the last of the same kind in hand. */
  step(by: 1 | -1): void {
    if (this.grip === undefined) return;
    const count = this.places(this.grip.what).length;
    this.grip = { ...this.grip, index: (this.grip.index + by + count) % count };
  }

  /** Sets what is aimed at, and asks when it is whole. */
  set(at: Pair): void {
    const aim = this.aim;
    const to = within(at, this.size);
    this.cross = undefined;
    if (aim === 'upright') {
      const begun = this.hints.upright.length === 1;
      this.hints.upright = begun ? [this.hints.upright[0]!, to] : [to];
      if (!begun) return; // its other end comes with the next touch
    } else {
      this.hints.inside = aim === 'other inside' ? [this.hints.inside[0]!, to] : [to];
      this.hints.points = [];
    }
    this.aim = '';
    this.ask();
  }

  /** Gives up what is aimed at. */
  leaveAim(): void {
    if (this.aim === 'upright' && this.hints.upright.length === 1) this.hints.upright = [];
    this.aim = '';
    this.cross = undefined;
  }

  /** Corners to draw to their places, where none were found. */
  beginCorners(): void {
    this.hints.corners = freshCorners(this.size);
    this.grip = { what: 'corner', index: 0 };
  }

  turn(): void {
    this.hints.corners = turned(this.corners);
    this.hints.points = [];
    this.ask();
  }

  /** Leaves a kind to the program again. */
  release(what: Grip['what']): void {
    const had = what === 'corner' ? 'corners' : what === 'point' ? 'points' : what;
    this.hints[had] = [];
    if (what !== 'point') this.hints.points = [];
    this.grip = undefined;
    this.ask();
  }

  /** Changes something that is said, and asks. */
  say(change: Partial<Pick<Hints, 'line' | 'across' | 'down' | 'taped' | 'face'>>): void {
    const same = Object.entries(change).every(([name, value]) => this.hints[name as keyof Hints] === value);
    if (same) return;
    Object.assign(this.hints, change);
    if (change.line !== undefined) this.hints.points = [];
    this.ask();
  }

  of(port: string): void {
    this.port = port;
    this.ask();
  }

  /** Keeps it as the port's outline: one deed. Throws what the program says against it. */
  keep(saw: string, base: string): Promise<BookDoneAnswer> {
    const what = { saw, photo: this.photo, port: this.port, ...($state.snapshot(this.hints) as Hints) };
    return this.door.do('rubbing', what, base === '' ? {} : { base });
  }

  close(): void {
    this.found.close();
  }
}
