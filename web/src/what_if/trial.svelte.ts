// The what-if in hand: its cuts as a list, what the program says of them, and the edges that moved before it answered.

import { boreFrame, type BoreFrame } from '../draw/bore_frame';
import { balloons, type Balloon, findingMarks, type Mark } from '../draw/bore_marks';
import type { Edge } from '../draw/bore_places';
import { angleBy } from '../draw/crank';
import { changeRow } from '../draw/figure_text';
import { lettered } from '../draw/finding_shapes';
import { amounts, ghosts, isStale } from '../draw/stale';
import { dragged, sent, type StepSent } from '../draw/steps';
import type { BoreAnswer, BoreWindow } from '../made/bore';
import type { Step, StepsAnswer } from '../made/steps';
import type { Finding, StudyAnswer } from '../made/study';
import { choices } from '../state/choices.svelte';
import { notices } from '../state/notices.svelte';
import { place } from '../state/place.svelte';
import { saw as named } from '../state/saw.svelte';
import { session } from '../state/session.svelte';
import { client } from '../wire/client';
import { Live } from '../wire/newest.svelte';
import { sayProblem } from '../wire/problem';

export interface Question {
  saw: string;
  cuts: string;
  units: string;
}

type StepsQuestion = { saw: string; cuts: string } | { saw: string; steps: StepSent[] };

const margins = { left: 54, right: 44, top: 62, bottom: 4 };

/** Begun by the screen while it is set up, as its effects end with the screen. */
export class Trial {
  readonly saw = place.now.saw;
  readonly stepper = new Live<StepsQuestion, StepsAnswer>((question, signal) => client.ask('steps', question, { signal }));
  readonly studies = new Live<Question, StudyAnswer>((question, signal) => client.ask('study', question, { signal }));
  readonly bores = new Live<Question, BoreAnswer>((question, signal) => client.ask('bore', question, { signal }));

  list = $state.raw<Step[]>([]);
  /** place of the cut in hand */
  hand = $state(0);
  #pickedEdge = $state('');
  /** text that the list stands for; the address holds the same once it is answered */
  #known = '';
  /** amounts by edge of each text that was answered, for the ghost of an edge */
  readonly #drawn = new Map<string, Record<string, number>>();
  #draggedFrom: number | undefined;

  readonly cuts = $derived(place.now.cuts);
  readonly asked: Question = $derived({ saw: this.saw, cuts: this.cuts, units: choices.units });
  readonly study = $derived(this.studies.answer);
  readonly bore = $derived(this.bores.answer);
  readonly stale = $derived(this.studies.stale || isStale(this.studies.question, this.asked) || this.stepper.stale);
  readonly refused = $derived(this.stepper.answer?.errors ?? []);
  readonly trouble = $derived.by(() => {
    const thrown = this.stepper.problem ?? this.studies.problem ?? this.bores.problem;
    return thrown === undefined ? '' : sayProblem(thrown);
  });
  readonly exhausts = $derived(this.study?.saw?.ports.filter((port) => port.kind === 'exhaust').map((port) => port.name) ?? []);

  constructor() {
    // The address changed by another hand than this list's: the list is read from it.
    $effect(() => {
      void session.last;
      if (this.cuts !== this.#known || this.stepper.answer === undefined) this.stepper.want({ saw: this.saw, cuts: this.cuts });
      this.#known = this.cuts;
    });
    // An answer gives the list its bounds and its words, and the address its text.
    $effect(() => {
      const answer = this.stepper.answer;
      if (answer === undefined || this.stepper.stale) return;
      this.#drawn.set(answer.text, amounts(answer.steps));
      this.list = answer.steps;
      this.#known = answer.text;
      if (this.hand >= answer.steps.length) this.hand = Math.max(0, answer.steps.length - 1);
      if (place.now.cuts !== answer.text) place.go({ cuts: answer.text }, true);
    });
    $effect(() => {
      void session.last;
      this.studies.want(this.asked);
      this.bores.want(this.asked);
    });
    $effect(() => {
      if (this.study?.saw == null) return;
      named.id = this.saw;
      named.name = this.study.saw.name;
      const count = this.list.length;
      named.says = count === 0 ? 'what if: no cut yet' : `what if, ${count} ${count === 1 ? 'cut' : 'cuts'}, against the saw as read`;
    });
    $effect(() => () => {
      this.stepper.close();
      this.studies.close();
      this.bores.close();
    });
  }

  // --- the edge in hand, at once

  readonly inHand = $derived(this.list[this.hand]);
  readonly #handEdge = $derived(/^(roof|floor) (.+)$/.exec(this.inHand?.act ?? ''));
  /** "exhaust roof" */
  readonly picked = $derived(this.#handEdge !== null ? `${this.#handEdge[2]} ${this.#handEdge[1]}` : this.#pickedEdge);
  readonly edge: Edge = $derived(this.#handEdge?.[1] === 'floor' ? 'floor' : 'roof');
  readonly window = $derived.by((): BoreWindow | undefined => {
    const port = this.#handEdge?.[2] ?? this.inHand?.target ?? this.#pickedEdge.split(' ')[0];
    const all = this.bore?.windows ?? [];
    return all.find((window) => window.port === port) ?? all.find((window) => window.kind === 'exhaust') ?? all[0];
  });
  /** how far edges stand from where the drawing has them [mm, downward], by "port edge" */
  readonly ghosts = $derived.by(() => {
    const edges = this.bore?.windows.flatMap((window) => (['roof', 'floor'] as const).map((edge) => ({ name: `${window.port} ${edge}`, act: window[edge].act, raise_is: window[edge].raise_is })));
    return ghosts(amounts(this.list), this.#drawn.get(this.bores.question?.cuts ?? '') ?? {}, edges ?? []);
  });
  /** where the cut in hand stops short, downward from stock [mm] */
  readonly stop = $derived.by(() => {
    const stop = this.inHand?.stop;
    if (stop === undefined || this.#handEdge === null || this.window === undefined) return undefined;
    return { down: stop * this.window[this.edge].raise_is, text: `stop ${Math.abs(stop)}` };
  });

  /** What the edge in hand opens at, read from the crank's table: "103.5°", empty when it opens nothing. */
  readonly opens = $derived.by(() => {
    const window = this.window;
    if (this.bore?.drop_mm === undefined || window === undefined) return '';
    const at = window[this.edge].at_deg;
    if (at === undefined || !window[this.edge].timed) return '';
    const down = this.ghosts[`${window.port} ${this.edge}`] ?? 0;
    const now = down === 0 ? at : angleBy(this.bore.drop_mm, at, down);
    if (now === undefined) return '';
    return now > 180 ? `${(360 - now).toFixed(1)}\u00b0 before TDC` : `${now.toFixed(1)}\u00b0`;
  });
  readonly opensStock = $derived.by(() => {
    const figure = this.study?.figures.find((one) => one.id === `port.${this.window?.port}.opens`);
    const row = figure === undefined ? undefined : changeRow(figure);
    return row === undefined ? '' : `${row.stock}\u00b0`;
  });
  readonly says = $derived(
    this.opens === '' ? '' : `${this.window?.label.replace(/^./, (letter) => letter.toUpperCase())} opens ${this.opens}${this.opensStock === '' ? '' : `, stock ${this.opensStock}`}.`,
  );

  // --- the drawing

  frame(room: number): BoreFrame | undefined {
    return this.bore === undefined ? undefined : boreFrame(this.bore, room, margins);
  }

  /** Letters of what is to be looked at. */
  marks(frame: BoreFrame): Mark[] {
    if (this.bore === undefined || this.study === undefined) return [];
    return findingMarks(this.bore, frame, lettered(this.study.findings).filter(({ finding }) => finding.state === 'caution' || finding.state === 'stop'));
  }

  numbers(frame: BoreFrame): Balloon[] {
    const cuts = this.list.map((step, k) => ({ number: k + 1, target: step.target, edge: step.act.startsWith('floor ') ? 'floor' : 'roof' }));
    return this.bore === undefined ? [] : balloons(this.bore, frame, cuts);
  }

  // --- what a hand does

  change(steps: Step[]): void {
    this.list = steps;
    this.stepper.want({ saw: this.saw, steps: steps.map(sent) });
  }

  add(step: Step): void {
    this.hand = this.list.length;
    this.change([...this.list, step]);
  }

  pick(window: BoreWindow, edge: Edge): void {
    this.#pickedEdge = `${window.port} ${edge}`;
    const own = this.list.findIndex((step) => step.act === window[edge].act);
    if (own >= 0) this.hand = own;
  }

  /** Dragging an edge turns its cut; the first time it makes one. */
  drag(window: BoreWindow, edge: Edge, down: number, done: boolean): void {
    const { act, raise_is } = window[edge];
    let own = this.list.findIndex((step) => step.act === act);
    if (own < 0) {
      const offered = this.stepper.answer?.may_add.find((step) => step.act === act);
      if (offered === undefined || Math.abs(down) < 0.05) return;
      this.list = [...this.list, { ...offered, amount: 0 }];
      own = this.list.length - 1;
    }
    this.hand = own;
    const step = this.list[own]!;
    this.#draggedFrom ??= step.amount ?? 0;
    const amount = dragged(step, this.#draggedFrom + down * raise_is);
    if (done) this.#draggedFrom = undefined;
    this.change(this.list.map((one, k) => (k === own ? { ...one, amount } : one)));
  }

  /** Keeps the list as a plan; answers whether it was kept. */
  async keep(title: string): Promise<boolean> {
    try {
      await client.do('cut', { saw: this.saw, cuts: this.cuts, title, done: false });
      session.keep();
      notices.say('Kept as a plan.');
      return true;
    } catch (thrown) {
      notices.say(sayProblem(thrown), '', true);
      return false;
    }
  }

  /** Keeps the figures of this what-if with their case; answers whether they were kept. */
  async keepFigures(): Promise<boolean> {
    try {
      await client.do('result', { saw: this.saw, cuts: this.cuts });
      session.keep();
      notices.say('The figures of this what-if are kept in the book.');
      return true;
    } catch (thrown) {
      notices.say(sayProblem(thrown), '', true);
      return false;
    }
  }

  /** Accepts a finding with a reason; answers whether it was kept. */
  async accept(finding: Finding, reason: string): Promise<boolean> {
    try {
      await client.do('accept', { saw: this.saw, finding: finding.figure, reason, cuts: this.cuts });
      session.keep();
      this.studies.want(this.asked);
      return true;
    } catch (thrown) {
      notices.say(sayProblem(thrown), '', true);
      return false;
    }
  }

  /** The template as a file to print. */
  async print(): Promise<void> {
    try {
      const sheet = await client.sheet('template', { saw: this.saw, cuts: this.cuts, units: choices.units });
      const address = URL.createObjectURL(sheet);
      const link = document.createElement('a');
      link.href = address;
      link.download = `${named.name} template.pdf`;
      link.click();
      setTimeout(() => URL.revokeObjectURL(address), 60_000);
    } catch (thrown) {
      notices.say(sayProblem(thrown), '', true);
    }
  }
}
