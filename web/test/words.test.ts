import { describe, expect, it } from 'vitest';

import { fieldWords, labelWords, mendWords } from '../src/parts/field_words';
import { count, day, moment } from '../src/parts/words';
import { colour, mayHave, mayStand } from '../src/parts/program_drawing';
import { backText } from '../src/state/undo.svelte';
import type { BookDoneAnswer } from '../src/made/book_done';

describe('words', () => {
  it('says fields in the words of the trade', () => {
    expect(fieldWords('port.exhaust.opens')).toBe('exhaust opens');
    expect(fieldWords('piston.ring.1.below_crown')).toBe('ring 1 below crown');
    expect(mendWords('the others agree without port.exhaust.roof; read that again')).toBe('The others agree without exhaust roof; read that again.');
    expect(labelWords('crank.bore 47.01 mm \u2192 47.05 mm')).toBe('bore 47.01 mm \u2192 47.05 mm');
    expect(labelWords('note: port matched at 8.30 mm')).toBe('note: port matched at 8.30 mm');
  });

  it('says days by the calendar of this year', () => {
    const now = new Date('2026-11-25T12:00:00');
    expect(day('2026-03-14T10:00:00', now)).toBe('14 March');
    expect(day('2025-03-14T10:00:00', now)).toBe('14 March 2025');
    expect(moment('2026-11-25T09:05:00', now)).toBe('today 09:05');
    expect(day('not a day', now)).toBe('not a day');
    expect(count(1, 'copy', 'copies')).toBe('1 copy');
  });

  it('shows what an undo put back', () => {
    const done = { action: { changes: [{ path: 'crank.bore', before: '47.05 mm', after: '47.01 mm' }, { path: 'a', before: null, after: 'b' }] } };
    expect(backText(done as unknown as BookDoneAnswer)).toBe('bore: 47.01 mm, was 47.05 mm (and 1 more)');
    const back = { action: { changes: [{ path: 'hidden', before: 'no', after: 'yes' }] } };
    expect(backText(back as unknown as BookDoneAnswer)).toBe('');
    expect(backText({ action: null } as unknown as BookDoneAnswer)).toBe('');
  });
});

describe('drawings of the program', () => {
  it('wear the colours of the page', () => {
    expect(colour('#1B1A17')).toBe('var(--ink)');
    expect(colour('none')).toBe('none');
    expect(colour('url(x)')).toBe('currentColor');
  });

  it('bring shapes and letters and nothing else', () => {
    expect(['path', 'text', 'g'].every(mayStand)).toBe(true);
    expect(['script', 'foreignObject', 'image', 'a', 'style', 'animate'].some(mayStand)).toBe(false);
    expect(mayHave('onload', 'x()')).toBeUndefined();
    expect(mayHave('href', 'x')).toBeUndefined();
    expect(mayHave('style', 'fill:red')).toBeUndefined();
    expect(mayHave('clip-path', 'url(#a-1)')).toBe('url(#a-1)');
    expect(mayHave('clip-path', 'url(other.svg#a)')).toBeUndefined();
  });
});
