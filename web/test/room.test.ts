import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';

import { inLetters, timesDrawn, underOf } from '../src/state/room.svelte';

test('room is counted in letters: text twice as large leaves half of it', () => {
  expect([inLetters(1280, 16), inLetters(1280, 32), inLetters(360, 16), inLetters(360, 0)]).toEqual([1280, 640, 360, 360]);
});

test('drawings grow with the text, while a narrow screen has room for them', () => {
  expect([timesDrawn(1280, 16), timesDrawn(1280, 32), timesDrawn(510, 32), timesDrawn(320, 32), timesDrawn(1280, 12)]).toEqual([1, 2, 1.5, 1, 1]);
});

test('the styles are told the widths that the room is under', () => {
  expect(underOf(1280)).toBe('');
  expect(underOf(900)).toBe('960 1040 1100 1180');
  expect(underOf(320).split(' ')).toHaveLength(7);
});

test('no style asks the screen for its width in pixels, and each asks for a width that is told', () => {
  const source = fileURLToPath(new URL('../src/', import.meta.url));
  const files = (folder: string): string[] => readdirSync(folder, { withFileTypes: true }).flatMap((one) => (one.isDirectory() ? (one.name === 'made' ? [] : files(join(folder, one.name))) : /\.(svelte|css)$/.test(one.name) ? [join(folder, one.name)] : []));
  const told = underOf(0).split(' ');
  const asked = new Set<string>();
  for (const file of files(source)) {
    const text = readFileSync(file, 'utf8');
    expect(text, file).not.toMatch(/@media[^{]*width/);
    for (const [, width] of text.matchAll(/data-under~='(\d+)'/g)) asked.add(width!);
  }
  expect(asked.size).toBeGreaterThan(3);
  for (const width of asked) expect(told).toContain(width);
});
