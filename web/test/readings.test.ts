import { describe, expect, it } from 'vitest';

import form from './fixtures/form.json';
import { Readings, fieldAt, firstField, inOrder, typedText } from '../src/state/readings.svelte';
import type { FormAnswer, FormField } from '../src/wire/asks';
import { ProblemError, Unreachable } from '../src/wire/problem';

const answer = form as unknown as FormAnswer;
const copy = () => structuredClone(answer);
const turn = () => new Promise((done) => setTimeout(done, 0));

/** A book with one field that remembers, and a log of what was written. */
function door(fail?: (turn: number) => Error | undefined) {
  const book = copy();
  const writes: Record<string, unknown>[] = [];
  const bases: (string | undefined)[] = [];
  const field = (path: string) => book.groups.flatMap((group) => group.fields).find((one) => one.path === path)!;
  return {
    book,
    writes,
    bases,
    field,
    ask: () => Promise.resolve(structuredClone(book) as never),
    do: (_: string, what: Record<string, unknown> = {}, options: { base?: string } = {}) => {
      writes.push(what);
      bases.push(options.base);
      const error = fail?.(writes.length);
      if (error !== undefined) return Promise.reject(error);
      const one = field(String(what['field']));
      if (what['clear'] === true) one.typed = [];
      else if (what['again'] === true) one.typed.push(String(what['value']));
      else if (what['value'] !== '') one.typed = [String(what['value'])];
      book.revision = String(Number(book.revision) + 1);
      return Promise.resolve({ action: { number: writes.length } } as never);
    },
  };
}

async function begin(fail?: (turn: number) => Error | undefined) {
  const book = door(fail);
  const readings = new Readings(book);
  readings.want({ saw: 's', units: 'shop' });
  await turn();
  return { book, readings, field: (path: string) => readings.field(path)! };
}

describe('readings', () => {
  it('keeps a field when it is left, and only when it was changed', async () => {
    const { book, readings, field } = await begin();
    readings.type('crank.bore', '47.2 mm');
    expect(readings.shown(field('crank.bore'))).toBe('47.2 mm');
    await readings.leave(field('crank.bore'));
    expect(book.writes).toMatchObject([{ field: 'crank.bore', value: '47.2 mm' }]);
    expect(field('crank.bore').typed).toEqual(['47.2 mm']);
    expect(readings.drafts).toEqual({});
    readings.type('crank.bore', ' 47.2 mm ');
    await readings.leave(field('crank.bore'));
    expect(book.writes).toHaveLength(1);
  });

  it('writes once what is left twice: by the key, and by the field that goes with it', async () => {
    const { book, readings, field } = await begin();
    readings.type('crank.bore', '47.2 mm');
    const [byKey, byLeaving] = await Promise.all([readings.leave(field('crank.bore')), readings.leave(field('crank.bore'))]);
    expect([byKey, byLeaving, book.writes.length]).toEqual([true, true, 1]);
    readings.type('crank.bore', '47.3 mm');
    const first = readings.leave(field('crank.bore'));
    readings.type('crank.bore', '47.4 mm');
    await Promise.all([first, readings.leave(field('crank.bore'))]);
    expect(book.writes.map((write) => write['value'])).toEqual(['47.2 mm', '47.3 mm', '47.4 mm']);
  });

  it('takes a reading out when its field is left empty', async () => {
    const { book, readings, field } = await begin();
    readings.type('crank.rod', '');
    await readings.leave(field('crank.rod'));
    expect(book.writes[0]).toMatchObject({ field: 'crank.rod', clear: true });
    expect(book.writes[0]).not.toHaveProperty('value');
  });

  it('writes one after the other, each on the revision that the one before left', async () => {
    const { book, readings } = await begin();
    await Promise.all([readings.set('crank.bore', '47.1 mm'), readings.set('crank.stroke', '34.1 mm'), readings.set('crank.bore', '47.3 mm')]);
    expect(book.bases).toEqual(['7', '8', '9']);
  });

  it('keeps what is typed while the program is away, and tries again when it is back', async () => {
    const { book, readings, field } = await begin((turn) => (turn === 1 ? new Unreachable() : undefined));
    readings.type('crank.bore', '47.4 mm');
    expect(await readings.leave(field('crank.bore'))).toBe(false);
    expect(readings.shown(field('crank.bore'))).toBe('47.4 mm');
    expect(readings.refused['crank.bore']).toContain('does not answer');
    await readings.again();
    expect(book.field('crank.bore').typed).toEqual(['47.4 mm']);
    expect(readings.refused).toEqual({});
  });

  it('shows both values of a conflict and writes the one that is chosen', async () => {
    const conflict = () =>
      new ProblemError({ type: 'conflict', title: '', status: 409, detail: '', errors: [{ code: 'conflict', message: '', path: 'crank.bore', hint: '', readings: [] }] });
    const { book, readings, field } = await begin((turn) => (turn === 1 ? conflict() : undefined));
    book.field('crank.bore').typed = ['46.9 mm'];
    book.book.revision = '20';
    readings.type('crank.bore', '47.5 mm');
    await readings.leave(field('crank.bore'));
    expect(readings.conflict).toMatchObject({ path: 'crank.bore', mine: '47.5 mm', theirs: '46.9 mm' });
    await readings.settle(true);
    expect(book.bases).toEqual(['7', '20']);
    expect(book.field('crank.bore').typed).toEqual(['47.5 mm']);
    expect(readings.conflict).toBeUndefined();
  });

  it('leaves theirs when theirs is chosen', async () => {
    const conflict = new ProblemError({ type: '', title: '', status: 409, detail: '', theirs: '46.8 mm', errors: [{ code: 'conflict', message: '', path: '', hint: '', readings: [] }] });
    const { book, readings, field } = await begin(() => conflict);
    readings.type('crank.bore', '47.5 mm');
    await readings.leave(field('crank.bore'));
    expect(readings.conflict?.theirs).toBe('46.8 mm');
    await readings.settle(false);
    expect(book.writes).toHaveLength(1);
    expect(readings.drafts).toEqual({});
  });

  it('begins with what would tell most, and follows the order of the work', () => {
    expect(firstField(answer)).toBe(answer.missing[0]!.path);
    const paths = inOrder(answer).map((field) => field.path);
    expect(paths.indexOf('name')).toBe(0);
    expect(paths.indexOf('port.exhaust.opens')).toBeLessThan(paths.indexOf('crank.bore'));
    const without = copy();
    without.missing = [];
    expect(inOrder(without).find((field) => field.path === firstField(without))?.typed).toEqual([]);
  });

  it('finds a field by its path, by the beginning of it, or as the begin of a new part', () => {
    expect(fieldAt(answer, 'cylinder.squish')?.path).toBe('cylinder.squish.exhaust');
    const ring = fieldAt(answer, 'piston.ring.3.below_crown')!;
    expect(ring).toMatchObject({ path: 'piston.ring.3.below_crown', typed: [], label: 'Another ring, below crown' });
    expect(ring.drawing).toBe(fieldAt(answer, 'piston.ring.1.below_crown')!.drawing);
    expect(fieldAt(answer, 'piston.window.1.centre')).toMatchObject({ kind: 'reading', units: ['deg'] });
    expect(fieldAt(answer, 'nothing.of.it')).toBeUndefined();
    expect(fieldAt(answer, '')).toBeUndefined();
  });

  it('leaves out what a saw has no use for until it is asked for', () => {
    const one = copy();
    one.groups.flatMap((group) => group.fields).find((field) => field.path === 'crank.pin_offset')!.seldom = true;
    expect(inOrder(one).map((field) => field.path)).not.toContain('crank.pin_offset');
    expect(inOrder(one, true).map((field) => field.path)).toContain('crank.pin_offset');
  });

  it('writes lists and pairs as they can be typed again', () => {
    const field = (kind: string, typed: string[]) => ({ kind, typed }) as FormField;
    expect(typedText(field('several', ['350 cc', '20 cc']))).toBe('350 cc; 20 cc');
    expect(typedText(field('pairs', ['0 mm', '30 mm', '200 mm', '38 mm']))).toBe('0 mm, 30 mm; 200 mm, 38 mm');
  });
});
