import { readFileSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

const source = fileURLToPath(new URL('../src/', import.meta.url));

function files(folder: string): string[] {
  return readdirSync(folder).flatMap((name) => {
    const path = join(folder, name);
    if (statSync(path).isDirectory()) return name === 'made' ? [] : files(path);
    return /\.(svelte|ts|css|html)$/.test(name) ? [path] : [];
  });
}

const all = files(source).map((path) => ({ path: path.slice(source.length), text: readFileSync(path, 'utf8') }));
const having = (pattern: RegExp) => all.filter((file) => pattern.test(file.text)).map((file) => file.path);

describe('the page', () => {
  it('is read by these tests at all', () => {
    expect(all.map((file) => file.path)).toContain('app.svelte');
    expect(all.length).toBeGreaterThan(40);
  });

  it('puts no text in as markup', () => {
    expect(having(/\{@html|innerHTML|outerHTML|insertAdjacentHTML|document\.write/)).toEqual([]);
  });

  it('has no style attribute in its markup, which the server forbids', () => {
    expect(having(/<[a-zA-Z][^>]*\sstyle\s*=/)).toEqual([]);
  });

  it('names no other host', () => {
    expect(having(/https?:\/\/|(?<![:\w])\/\/[\w-]+\.[a-z]{2,}/)).toEqual([]);
  });

  it('makes no code of texts', () => {
    expect(having(/\beval\(|new Function\(|setTimeout\(\s*['"`]/)).toEqual([]);
  });
});
