// The plan in hand: the wish as rows and as text, the ways that reach it, the one in hand and its bore, what is done of it.
// The address holds all of it, so that a reload at the bench loses nothing.

import type { BookRecord, BookSet } from '../made/book_show';
import type { BoreAnswer } from '../made/bore';
import type { Trouble } from '../made/error';
import type { PlanAnswer, PlanCut, PlanWay } from '../made/plan';
import type { StudyAnswer } from '../made/study';
import { isStale } from '../draw/stale';
import { choices } from '../state/choices.svelte';
import { notices } from '../state/notices.svelte';
import { place } from '../state/place.svelte';
import { saw as named } from '../state/saw.svelte';
import { session } from '../state/session.svelte';
import { client } from '../wire/client';
import { Live } from '../wire/newest.svelte';
import { ProblemError, sayProblem } from '../wire/problem';
import { Seek } from './seek.svelte';
import { speaksOfEngine } from './seek_words';
import { asCut, askedWords, capital, count, cutsOf, likest, restOf } from './way_words';
import { offersOf, readWishes, type Wish, writeWishes } from './wish_text';

export interface PlanQuestion {
  saw: string;
  wish: string;
  gaskets: string;
  step: string;
  chance: string;
  done: string;
  units: string;
}

interface BoreQuestion {
  saw: string;
  cuts: string;
  units: string;
}

/** One cut that is done, beside what was planned. */
export interface DoneCut {
  cut: string;
  planned: string;
}

/** A wish by what is done so far, and as it was read again after the cut. */
export interface NowRow {
  label: string;
  asked: string;
  stock: string;
  text: string;
  /** empty: not read again */
  again: string;
}

/** What the screen asks the program. */
export type Door = Pick<typeof client, 'ask' | 'do' | 'sheet'>;

/** Begun by the screen while it is set up. */
export class Plan {
  readonly saw = place.now.saw;
  /** what is planned from: the set of readings that the ticks stand on, else the newest */
  readonly of = $derived(place.now.set === '' ? this.saw : place.now.set);
  readonly #plans: Live<PlanQuestion, PlanAnswer>;
  readonly #bores: Live<BoreQuestion, BoreAnswer>;
  readonly #studies: Live<Omit<BoreQuestion, 'cuts'>, StudyAnswer>;
  /** the saw as it is with what is done */
  readonly #nows: Live<BoreQuestion, StudyAnswer>;
  /** the saw as it was read again */
  readonly #agains: Live<Omit<BoreQuestion, 'cuts'>, StudyAnswer>;

  /** the wish as rows; a row may want something yet */
  rows = $state.raw<Wish[]>([]);
  /** text that the rows stand for */
  #known = '';
  /** cuts of the way that was in hand when the ways were others */
  #followed: { question: PlanQuestion; cuts: string } | undefined;
  /** lists of the book that are done */
  kept = $state.raw<string[]>([]);
  /** their ids, and what was planned for each cut */
  #lists = new Map<string, { id: string; planned: string }>();
  /** sets of readings of the saw, newest first */
  sets = $state.raw<BookSet[]>([]);

  readonly wish = $derived(place.now.wish);
  /** the wish speaks of the engine: cuts are searched for it, no ways planned */
  readonly engine = $derived(speaksOfEngine(this.wish));
  readonly seek: Seek;
  readonly done = $derived(cutsOf(place.now.done));
  readonly asked: PlanQuestion = $derived({
    saw: this.of,
    wish: this.wish,
    gaskets: place.now.gaskets,
    step: place.now.step,
    chance: place.now.chance,
    done: this.done.join('; '),
    units: choices.units,
  });
  readonly answer = $derived.by(() => (this.wish === '' || this.engine ? undefined : this.#plans.answer));
  readonly study = $derived.by(() => this.#studies.answer);
  readonly offers = $derived.by(() => (this.study?.saw == null ? [] : offersOf(this.study.saw, this.study.figures)));
  readonly problem = $derived.by(() => (this.wish === '' ? undefined : this.engine ? this.seek.job.problem : this.#plans.problem));
  readonly working = $derived.by(() => this.wish !== '' && !this.engine && this.#plans.stale && this.problem === undefined);
  /** the ways are of another wish than the one on the page */
  readonly stale = $derived.by(() => this.answer !== undefined && (this.problem !== undefined || isStale(this.#plans.question, this.asked)));
  readonly troubles: Trouble[] = $derived.by(() => (this.problem instanceof ProblemError ? this.problem.problem.errors : []));
  readonly trouble = $derived.by(() => (this.problem === undefined || this.troubles.length > 0 ? '' : sayProblem(this.problem)));

  readonly hand = $derived.by(() => {
    const ways = this.answer?.plans.length ?? 0;
    return Math.min(Math.max(0, (Number.parseInt(place.now.way, 10) || 1) - 1), Math.max(0, ways - 1));
  });
  readonly way: PlanWay | undefined = $derived.by(() => this.answer?.plans[this.hand]);
  /** what is to be cut yet */
  readonly rest: PlanCut[] = $derived.by(() => (this.way === undefined || this.answer === undefined ? [] : restOf(this.way, this.answer.done, this.done)));
  readonly bore = $derived.by(() => this.#bores.answer);
  readonly boreStale = $derived.by(() => this.#bores.stale || this.stale);
  readonly doneCuts: DoneCut[] = $derived.by(() => {
    const planned = place.now.planned.split(';').map((one) => one.trim());
    return this.done.map((cut, k) => ({ cut, planned: planned[k] ?? '' }));
  });

  readonly nowStale = $derived.by(() => this.#nows.stale || this.#nows.question?.cuts !== this.asked.done);
  /** the newest set of readings is one after what is done */
  readonly readAgain = $derived.by(() => place.now.set !== '' && this.sets.some((one) => one.newest && one.id !== place.now.set));
  readonly now: NowRow[] = $derived.by(() => {
    const figures = this.#nows.answer?.figures ?? [];
    const again = this.readAgain ? (this.#agains.answer?.figures ?? []) : [];
    return (this.answer?.wishes ?? []).flatMap((wish) => {
      const figure = figures.find((one) => one.id === wish.figure);
      if (figure === undefined) return [];
      return [{ label: capital(wish.label), asked: askedWords(wish), stock: wish.stock_text, text: figure.text, again: again.find((one) => one.id === wish.figure && one.value !== null)?.text ?? '' }];
    });
  });

  constructor(private readonly door: Door = client) {
    this.seek = new Seek(() => this.of);
    this.#plans = new Live((question, signal) => door.ask('plan', question, { signal }));
    this.#bores = new Live((question, signal) => door.ask('bore', question, { signal }));
    this.#studies = new Live((question, signal) => door.ask('study', question, { signal }));
    this.#nows = new Live((question, signal) => door.ask('study', question, { signal }));
    this.#agains = new Live((question, signal) => door.ask('study', question, { signal }));
    // The wish changed by another hand than the rows': they are read from it.
    $effect(() => {
      if (this.wish !== this.#known) this.rows = readWishes(this.wish);
      this.#known = this.wish;
    });
    $effect(() => {
      void session.last;
      this.#studies.want({ saw: this.of, units: choices.units });
      void this.#look();
    });
    $effect(() => {
      void session.last;
      if (this.asked.wish !== '' && !this.engine) this.#plans.want(this.asked);
    });
    // Other ways: the one in hand stays in hand as far as there is one like it.
    $effect(() => {
      const question = this.#plans.question;
      const way = this.way;
      if (question === undefined || way === undefined) return;
      const before = this.#followed;
      if (before !== undefined && isStale(before.question, question)) {
        const like = likest(this.answer!.plans, before.cuts);
        this.#followed = { question, cuts: this.answer!.plans[like]!.cuts };
        if (like !== this.hand) place.go({ way: like === 0 ? '' : String(like + 1) }, true);
      } else this.#followed = { question, cuts: way.cuts };
    });
    $effect(() => {
      const cuts = this.way?.cuts ?? place.now.done;
      this.#bores.want({ saw: this.of, cuts, units: choices.units });
    });
    $effect(() => {
      void session.last;
      if (this.asked.done !== '') this.#nows.want({ saw: this.of, cuts: this.asked.done, units: choices.units });
    });
    $effect(() => {
      void session.last;
      if (this.readAgain) this.#agains.want({ saw: this.saw, units: choices.units });
    });
    $effect(() => {
      if (this.study?.saw == null) return;
      named.id = this.saw;
      named.name = this.study.saw.name;
      const ways = this.answer?.plans.length ?? 0;
      named.says = ways === 0 ? 'plan: from a wish to cuts' : `plan: ${count(ways, 'way')}, against the saw as read`;
    });
    $effect(() => () => {
      this.#plans.close();
      this.#bores.close();
      this.#studies.close();
      this.#nows.close();
      this.#agains.close();
    });
  }

  // --- the wish

  turn(rows: Wish[]): void {
    this.rows = rows;
    this.#known = writeWishes(rows);
    place.go({ wish: this.#known }, true);
  }

  say(text: string): void {
    this.turn(readWishes(text));
  }

  add(figure: string): void {
    this.turn([...this.rows, { figure, relation: 'at', value: '', text: '' }]);
  }

  /** Puts what the answer offers in the place of what it asks about: a wish, or a cut that is done. */
  mend(trouble: Trouble, wish: string): void {
    const cut = /^cuts\.(\d+)/.exec(trouble.path);
    if (cut !== null) return place.go({ done: this.done.map((one, k) => (k === Number(cut[1]) - 1 ? wish : one)).join('; ') });
    const at = this.#placeOf(trouble);
    const whole = readWishes(this.wish);
    this.turn(at === undefined ? [...whole, ...readWishes(wish)] : whole.flatMap((one, k) => (k === at ? readWishes(wish) : [one])));
  }

  leaveOut(trouble: Trouble): void {
    const at = this.#placeOf(trouble);
    this.turn(readWishes(this.wish).filter((_, k) => k !== at));
  }

  /** The wish that a trouble speaks of. */
  wishOf(trouble: Trouble): string {
    const at = this.#placeOf(trouble);
    return at === undefined ? '' : (readWishes(this.wish)[at]?.text ?? '');
  }

  #placeOf(trouble: Trouble): number | undefined {
    const said = /^wishes\.(\d+)/.exec(trouble.path);
    return said === null ? undefined : Number(said[1]) - 1;
  }

  take(at: number): void {
    place.go({ way: at === 0 ? '' : String(at + 1) }, true);
  }

  // --- at the bench

  /** A cut is done, as it was read. */
  tick(step: PlanCut, typed: string): void {
    place.go({ done: [...this.done, asCut(step.cut, typed)].join('; '), planned: [...this.doneCuts.map((one) => one.planned), step.cut].join('; '), set: this.#set() });
  }

  untick(at: number): void {
    const left = this.doneCuts.filter((_, k) => k !== at);
    place.go({ done: left.map((one) => one.cut).join('; '), planned: left.map((one) => one.planned).join('; '), ...(left.length === 0 ? { set: '' } : {}) });
  }

  /** Takes up a list that the book has as done. */
  takeUp(cuts: string): void {
    place.go({ done: cuts, planned: this.#lists.get(cuts)?.planned ?? '', set: this.#set() });
  }

  /** The set that ticks stand on: the first tick says which, and the rest go with it. */
  #set(): string {
    return this.done.length > 0 ? place.now.set : (this.sets.find((one) => one.newest)?.id ?? '');
  }

  /** What the book has as done of this saw since the readings that are planned from; a newer set may be after it. */
  async #look(): Promise<void> {
    try {
      const shown = await this.door.ask('saw', { saw: this.saw });
      const part = (record: BookRecord, name: string) => record.details.find((detail) => detail.name === name)?.texts ?? [];
      this.sets = shown.sets;
      const since = shown.sets.find((one) => (place.now.set === '' ? one.newest : one.id === place.now.set))?.when ?? '';
      const lists = shown.records.filter((record) => record.kind === 'cuts' && part(record, 'state')[0] === 'done' && record.when >= since);
      this.#lists = new Map(lists.map((record) => [part(record, 'steps').join('; '), { id: record.id, planned: part(record, 'planned').join('; ') }]));
      this.kept = [...this.#lists.keys()];
    } catch {
      this.kept = []; // the other questions say what is wrong with the book
    }
  }

  readonly isKept = $derived.by(() => this.kept.includes(this.done.join('; ')));

  /** Goes on with the list that the book has of the first of these cuts; what was planned stands beside. */
  keepDone = (): Promise<boolean> => {
    const planned = this.doneCuts.map((one) => one.planned);
    const begun = this.done.map((_, k) => this.#lists.get(this.done.slice(0, k + 1).join('; '))?.id).filter((id) => id !== undefined).at(-1);
    return this.#keep(this.done.join('; '), 'at the bench', true, 'What is done is in the book.', { ...(planned.every((one) => one !== '') ? { planned: planned.join('; ') } : {}), ...(begun === undefined ? {} : { list: begun }) });
  };

  keep = (title: string): Promise<boolean> => this.#keep(this.way?.cuts ?? '', title, false, 'Kept as a plan.');

  async #keep(cuts: string, title: string, done: boolean, says: string, beside: { planned?: string; list?: string } = {}): Promise<boolean> {
    try {
      const answer = await this.door.do('cut', { saw: this.saw, cuts, title, done, ...beside });
      session.keep(answer.action?.number);
      notices.say(says);
      if (done) await this.#look();
      return true;
    } catch (thrown) {
      notices.say(sayProblem(thrown), '', true);
      return false;
    }
  }

  /** The cut sheet of the way in hand, as a file to print. Throws what was wrong with it. */
  sheet = (paper: string, band: string, hand: string): Promise<void> => this.#sheet({ ...this.asked, way: this.hand + 1, paper, band: band.trim(), hand: hand.trim() }, paper);

  /** The cut sheet of a list of cuts. Throws what was wrong with it. */
  sheetOf = (cuts: string, paper: string): Promise<void> => this.#sheet({ saw: this.of, cuts, paper, units: choices.units }, paper);

  async #sheet(question: object, paper: string): Promise<void> {
    const sheet = await this.door.sheet('cuts', question);
    const address = URL.createObjectURL(sheet);
    const link = document.createElement('a');
    link.href = address;
    link.download = `${named.name || 'saw'} cut sheet ${paper}.pdf`;
    link.click();
    setTimeout(() => URL.revokeObjectURL(address), 60_000);
  }
}
