import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';

const css = readFileSync(new URL('../src/styles/tokens.css', import.meta.url), 'utf8');

/** Tokens of the block that follows a text. */
function tokens(after: string): string[] {
  const from = css.indexOf(after);
  expect(from, after).toBeGreaterThanOrEqual(0);
  return css.slice(css.indexOf('{', from) + 1, css.indexOf('}', from)).split(';').map((line) => line.trim()).filter((line) => line !== '');
}

test('slate is the same whether the system or a person chose it', () => {
  const chosen = tokens(":root[data-theme='slate']");
  expect(chosen.length).toBeGreaterThan(10);
  expect(tokens(':root:not([data-theme])')).toEqual(chosen);
});
