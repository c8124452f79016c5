import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';

import type { PlanAnswer, PlanCut } from '../../src/made/plan';
import { type Door, Plan, type PlanQuestion } from '../../src/plan/plan.svelte';
import { place, readPlace } from '../../src/state/place.svelte';
import { ProblemError } from '../../src/wire/problem';

/** Effects and answers run in the next turns. */
async function flush() {
  for (let k = 0; k < 20; ++k) await Promise.resolve();
}

const way = (cuts: string) => ({ cuts, steps: cuts.split('; ').map((cut) => ({ cut, exact: cut, text: cut })), findings: [], wishes: [], limits: [] });

/** A program that answers plans from a table of wishes; what is not in it is refused. */
class Program {
  asked: PlanQuestion[] = [];
  did: unknown[] = [];
  /** sets of readings since the first */
  later: { id: string; newest: boolean; when: string }[] = [];
  records: { id: string; kind: string; when: string; details: { name: string; texts: string[] }[] }[] = [];
  ways: Record<string, string[]> = {};
  ask(name: string, question: object) {
    if (name === 'saw') return Promise.resolve({ sets: [...this.later, { id: 'r1', newest: this.later.length === 0, when: '2026-05-01T10:00:00Z' }], records: this.records });
    if (name === 'bore') return Promise.resolve({ sentence: (question as { cuts: string }).cuts });
    if (name === 'study') return Promise.resolve({ saw: { name: 'Rowan 55', ports: [] }, figures: [{ id: 'squish.clearance', text: '0.72 mm', value: 0.72 }] });
    const asked = question as PlanQuestion;
    this.asked.push(asked);
    const cuts = this.ways[[asked.wish, asked.done].filter((text) => text !== '').join(' | ')];
    if (cuts === undefined) return Promise.reject(new ProblemError({ type: '', title: '', status: 422, detail: '', errors: [{ code: 'unreadable', message: 'no', path: 'wishes.1', hint: '', readings: ['squish 0.7 mm'] }] }));
    const done = asked.done === '' ? [] : asked.done.split('; ');
    const wishes = [{ figure: 'squish.clearance', label: 'squish', relation: 'is', stock_text: '1.05 mm', asked_text: '0.70 mm' }];
    return Promise.resolve({ plans: cuts.map(way), done, wishes, kept: [], refused: [], unchecked: [] } as unknown as PlanAnswer);
  }
  do(name: string, what: object) {
    this.did.push([name, what]);
    return Promise.resolve({});
  }
}

let program: Program;
let plan: Plan;
let stop: () => void;

async function at(query: string) {
  place.now = readPlace(query);
  stop = $effect.root(() => {
    plan = new Plan(program as unknown as Door);
  });
  await flush();
}

beforeEach(() => {
  vi.stubGlobal('location', { pathname: '/', search: '' });
  vi.stubGlobal('window', { addEventListener: () => {}, removeEventListener: () => {} });
  vi.stubGlobal('history', { pushState: () => {}, replaceState: () => {} });
  program = new Program();
  program.ways['squish 0.7 mm'] = ['gasket out; band -0.15 mm', 'base -0.35 mm'];
  program.ways['squish 0.7 mm | base -0.3 mm'] = ['base -0.3 mm; band -0.05 mm', 'base -0.3 mm; base -0.05 mm'];
});

afterEach(() => {
  stop();
  vi.unstubAllGlobals();
});

describe('the plan in hand', () => {
  it('asks nothing before something is wished', async () => {
    await at('?at=plan&saw=x');
    expect(program.asked).toEqual([]);
    expect([plan.working, plan.stale, plan.way]).toEqual([false, false, undefined]);
  });

  it('sends rows as text, and a row that wants something yet is not sent', async () => {
    await at('?at=plan&saw=x');
    plan.add('squish');
    await flush();
    expect(program.asked).toEqual([]);
    expect(plan.rows).toHaveLength(1);
    plan.turn([{ ...plan.rows[0]!, value: '0.7 mm', text: 'squish 0.7 mm' }]);
    await flush();
    expect(program.asked.at(-1)).toMatchObject({ saw: 'x', wish: 'squish 0.7 mm', done: '' });
    expect(plan.way?.cuts).toBe('gasket out; band -0.15 mm');
    expect(plan.bore?.sentence).toBe('gasket out; band -0.15 mm');
  });

  it('plans on from the readings that the first tick stood on, though the saw is read again', async () => {
    await at('?at=plan&saw=x&wish=squish+0.7+mm');
    plan.tick({ cut: 'base -0.35 mm', exact: '', text: '' } as PlanCut, '0.3 mm');
    await flush();
    expect(place.now.set).toBe('r1');
    expect(program.asked.at(-1)).toMatchObject({ saw: 'r1', done: 'base -0.3 mm' });
    stop();
    program.later = [{ id: 'r2', newest: true, when: '2026-05-02T10:00:00Z' }];
    await at('?at=plan&saw=x&wish=squish+0.7+mm&done=base+-0.3+mm&planned=base+-0.35+mm&set=r1');
    expect([plan.readAgain, plan.now[0]?.again]).toEqual([true, '0.72 mm']);
    expect(program.asked.at(-1)).toMatchObject({ saw: 'r1' });
    plan.untick(0);
    await flush();
    expect([place.now.set, plan.of]).toEqual(['', 'x']);
  });

  it('asks for no ways where the wish is one about the engine', async () => {
    await at('?at=plan&saw=x&wish=most+power%3B+squish+0.7+mm&free=base');
    expect([plan.engine, program.asked.length, plan.working, plan.answer]).toEqual([true, 0, false, undefined]);
    expect(plan.seek.asked).toMatchObject({ saw: 'x', wish: 'most power; squish 0.7 mm', free: 'base' });
    plan.say('squish 0.7 mm');
    await flush();
    expect([plan.engine, program.asked.length]).toEqual([false, 1]);
  });

  it('keeps the old ways, marked, while a new wish cannot be met, and puts right what is asked about', async () => {
    await at('?at=plan&saw=x&wish=squish+0.7+mm');
    expect(plan.stale).toBe(false);
    plan.say('squish 0.7');
    await flush();
    expect([plan.stale, plan.working, plan.answer?.plans.length]).toEqual([true, false, 2]);
    plan.mend(plan.troubles[0]!, plan.troubles[0]!.readings[0]!);
    await flush();
    expect([place.now.wish, plan.stale, plan.troubles]).toEqual(['squish 0.7 mm', false, []]);
  });

  it('plans the rest from what was cut, and stays with the way that was begun', async () => {
    await at('?at=plan&saw=x&wish=squish+0.7+mm&way=2');
    plan.tick(plan.rest[0]!, '0.3 mm');
    await flush();
    expect(program.asked.at(-1)).toMatchObject({ done: 'base -0.3 mm' });
    expect(plan.doneCuts).toEqual([{ cut: 'base -0.3 mm', planned: 'base -0.35 mm' }]);
    expect(plan.way?.cuts).toBe('base -0.3 mm; base -0.05 mm');
    expect(plan.rest.map((step) => step.cut)).toEqual(['base -0.05 mm']);
    expect(plan.now).toEqual([{ label: 'Squish', asked: '0.70 mm', stock: '1.05 mm', text: '0.72 mm', again: '' }]);
    plan.untick(0);
    await flush();
    expect([place.now.done, place.now.planned]).toEqual(['', '']);
  });

  it('keeps what is done in the book, and takes up what the book has since the newest readings', async () => {
    const record = (when: string, state: string, step: string, planned: string[] = []) => ({ id: `c${step.length}`, kind: 'cuts', when, details: [{ name: 'state', texts: [state] }, { name: 'steps', texts: [step] }, { name: 'planned', texts: planned }] });
    program.records = [record('2026-06-01T10:00:00Z', 'done', 'base -0.3 mm', ['base -0.35 mm']), record('2026-06-01T10:00:00Z', 'planned', 'gasket out'), record('2026-04-01T10:00:00Z', 'done', 'band -0.1 mm')];
    await at('?at=plan&saw=x&wish=squish+0.7+mm');
    expect(plan.kept).toEqual(['base -0.3 mm']);
    plan.takeUp('base -0.3 mm');
    await flush();
    expect([plan.isKept, plan.doneCuts]).toEqual([true, [{ cut: 'base -0.3 mm', planned: 'base -0.35 mm' }]]);
    plan.tick(plan.rest[0]!, '');
    await flush();
    expect(plan.doneCuts.map((one) => one.planned)).toEqual(['base -0.35 mm', 'band -0.05 mm']);
    await plan.keepDone();
    expect(program.did.at(-1)).toEqual(['cut', { saw: 'x', cuts: 'base -0.3 mm; band -0.05 mm', title: 'at the bench', done: true, planned: 'base -0.35 mm; band -0.05 mm', list: 'c12' }]);
  });

  it('puts right a cut that was typed without its unit', async () => {
    await at('?at=plan&saw=x&wish=squish+0.7+mm&done=base+-0.3&planned=base+-0.35+mm');
    plan.mend({ ...plan.troubles[0]!, path: 'cuts.1' }, 'base -0.3 mm');
    await flush();
    expect([place.now.wish, place.now.done, place.now.planned, plan.troubles]).toEqual(['squish 0.7 mm', 'base -0.3 mm', 'base -0.35 mm', []]);
  });
});
