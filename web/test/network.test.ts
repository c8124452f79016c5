import { expect, test } from 'vitest';

import { inFours, left, soFar } from '../src/parts/time_left';
import { isElsewhere } from '../src/state/session.svelte';

test('time left is said in hours and minutes, never too short', () => {
  expect([43_200, 43_199, 43_140, 3_600, 3_540, 61, 60, 59, 1, 0].map(left)).toEqual(['12 h', '12 h', '11 h 59 min', '1 h', '59 min', '2 min', '1 min', '59 s', '1 s', '0 s']);
});

test('what was told runs down and stops at nothing', () => {
  expect(soFar(300, 1_000, 1_000)).toBe(300);
  expect(soFar(300, 1_000, 61_000)).toBe(240);
  expect(soFar(300, 1_000, 999_000)).toBe(0);
  expect(soFar(300, 1_000, 0)).toBe(300);
});

test('digits stand in fours', () => {
  expect(inFours('48271593')).toBe('4827 1593');
  expect(inFours('')).toBe('');
});

test('a page is elsewhere unless it was opened by a name of the machine itself', () => {
  for (const host of ['127.0.0.1', 'localhost', '[::1]']) expect(isElsewhere(host)).toBe(false);
  for (const host of ['192.168.1.5', '127.0.0.2', 'localhost.example', '']) expect(isElsewhere(host)).toBe(true);
});
