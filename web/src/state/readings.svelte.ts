// The readings of the saw in hand: what the book has, what is typed and not kept yet, and two hands on one field.

import type { BookDoneAnswer } from '../made/book_done';
import type { FormAnswer, FormField } from '../wire/asks';
import { client, type Client } from '../wire/client';
import { Live } from '../wire/newest.svelte';
import { ProblemError, Unreachable, sayProblem } from '../wire/problem';
import type { Units } from './choices.svelte';

/** The same field was changed elsewhere since this page read it. */
export interface Conflict {
  path: string;
  label: string;
  mine: string;
  theirs: string;
}

export interface Extra {
  again?: boolean;
  clear?: boolean;
  with?: string;
  setup?: string;
  note?: string;
}

interface Question {
  saw: string;
  units: Units;
}

/** What stands in a field, as one text that can be typed again. */
export function typedText(field: FormField): string {
  if (field.kind !== 'pairs') return field.typed.join('; ');
  const rows: string[] = [];
  for (let i = 0; i < field.typed.length; i += 2) rows.push(`${field.typed[i]}, ${field.typed[i + 1] ?? ''}`);
  return rows.join('; ');
}

/** Fields in the order of the work. */
export function inOrder(form: FormAnswer, seldom = false): FormField[] {
  return form.groups.flatMap((group) => group.fields.filter((field) => seldom || !field.seldom || field.typed.length > 0));
}

const numberless = (path: string) => path.replace(/\.\d+\./g, '.#.');

/** The field at a path: one of the form, the first below it, or the first reading of a part that may be added. */
export function fieldAt(form: FormAnswer, path: string): FormField | undefined {
  const all = form.groups.flatMap((group) => group.fields);
  const there = all.find((field) => field.path === path) ?? all.find((field) => path !== '' && field.path.startsWith(`${path}.`));
  const addition = form.may_add.find((one) => one.path === path && one.value === '');
  if (there !== undefined || addition === undefined) return there;
  const like = all.find((field) => numberless(field.path) === numberless(path));
  const turned = /\.(centre|from|to)$/.test(path);
  return {
    ...(like ?? { ...all[0]!, how: '', drawing: '', typical: '', instruments: [], dimension: turned ? 'angle' : 'length', units: turned ? ['deg'] : ['mm', 'in', 'thou'] }),
    path,
    label: `${addition.label}, ${path.split('.').at(-1)!.replace(/_/g, ' ')}`,
    kind: 'reading',
    choices: [],
    typed: [],
    with: '',
    setup: '',
    note: '',
    read: '',
    errors: [],
    borrowed_from: '',
  };
}

/** The field to begin with: what would tell most, else the first that is not taken. */
export function firstField(form: FormAnswer): string {
  const all = inOrder(form);
  const telling = form.missing.map((one) => fieldAt(form, one.path)).find((field) => field !== undefined);
  return (telling ?? all.find((field) => field.typed.length === 0) ?? all[0])?.path ?? '';
}

export class Readings {
  /** texts that are typed and not in the book yet, by path */
  drafts = $state<Record<string, string>>({});
  /** why a draft is not in the book, by path */
  refused = $state<Record<string, string>>({});
  conflict = $state.raw<Conflict | undefined>(undefined);
  /** paths being written right now */
  writing = $state<Record<string, boolean>>({});
  readonly form: Live<Question, FormAnswer>;
  #last: Promise<unknown> = Promise.resolve();
  /** what is on its way into the book, by path: a field left twice is written once */
  readonly #leaving = new Map<string, { text: string; kept: Promise<boolean> }>();
  #question: Question | undefined;

  constructor(
    private readonly door: Pick<Client, 'ask' | 'do'> = client,
    private readonly kept: (done: BookDoneAnswer) => void = () => {},
  ) {
    this.form = new Live((question, signal) => this.door.ask('form', question, { signal }));
  }

  want(question: Question): void {
    this.#question = question;
    this.form.want(question);
  }

  close(): void {
    this.form.close();
  }

  field(path: string): FormField | undefined {
    return this.form.answer === undefined ? undefined : fieldAt(this.form.answer, path);
  }

  /** What is shown in a field: the draft while there is one. */
  shown(field: FormField): string {
    return this.drafts[field.path] ?? typedText(field);
  }

  type(path: string, text: string): void {
    this.drafts[path] = text;
  }

  /** Keeps what is typed in a field; what stands there already is not written again. */
  leave(field: FormField): Promise<boolean> {
    const draft = this.drafts[field.path];
    if (draft === undefined) return Promise.resolve(true);
    const text = draft.trim();
    if (text === typedText(field)) {
      delete this.drafts[field.path];
      return Promise.resolve(true);
    }
    const flying = this.#leaving.get(field.path);
    if (flying?.text === text) return flying.kept;
    const kept = this.set(field.path, text, text === '' ? { clear: true } : {}).finally(() => {
      if (this.#leaving.get(field.path)?.kept === kept) this.#leaving.delete(field.path);
    });
    this.#leaving.set(field.path, { text, kept });
    return kept;
  }

  /** Writes one field; one after the other, each on the revision that the one before left. */
  set(path: string, value: string, extra: Extra = {}): Promise<boolean> {
    const next = this.#last.then(() => this.#write(path, value, extra));
    this.#last = next.catch(() => false);
    return next;
  }

  /** Tries again what could not be written because the program was away. */
  async again(): Promise<void> {
    for (const path of Object.keys(this.refused)) {
      const field = this.field(path);
      if (field !== undefined) await this.leave(field);
    }
  }

  /** Settles two hands on one field: mine is written over theirs, or theirs stays. */
  async settle(mine: boolean): Promise<void> {
    const conflict = this.conflict;
    if (conflict === undefined) return;
    this.conflict = undefined;
    await this.#fresh();
    if (mine) await this.set(conflict.path, conflict.mine, conflict.mine === '' ? { clear: true } : {});
    else delete this.drafts[conflict.path];
  }

  async #write(path: string, value: string, extra: Extra): Promise<boolean> {
    const form = this.form.answer;
    if (form === undefined || this.#question === undefined) return false;
    this.writing[path] = true;
    const what: Record<string, unknown> = { saw: this.#question.saw, field: path, ...extra };
    if (!extra.clear) what['value'] = value;
    try {
      const done = await this.door.do('set', what, form.revision === '' ? {} : { base: form.revision });
      this.kept(done);
      await this.#fresh();
      if (this.drafts[path]?.trim() === value) delete this.drafts[path];
      delete this.refused[path];
      return true;
    } catch (thrown) {
      await this.#failed(path, value, thrown);
      return false;
    } finally {
      delete this.writing[path];
    }
  }

  async #failed(path: string, value: string, thrown: unknown): Promise<void> {
    if (!(thrown instanceof ProblemError) || !thrown.conflict) {
      this.refused[path] = thrown instanceof Unreachable ? 'Not in the book yet: the program does not answer.' : sayProblem(thrown);
      return;
    }
    await this.#fresh();
    const field = this.field(path);
    const theirs = thrown.problem.theirs ?? (field === undefined ? '' : typedText(field));
    this.conflict = { path, label: field?.label ?? path, mine: value, theirs };
  }

  /** Asks the form again and waits for it, so that the next write stands on the newest revision. */
  async #fresh(): Promise<void> {
    if (this.#question !== undefined) await this.form.fresh(this.#question);
  }
}
