import { expect, test } from 'vitest';

import { restoreCommand } from '../src/parts/restore_command';
import { Client } from '../src/wire/client';
import type { Problem } from '../src/wire/problem';

test('the way back names the book only where it is not the usual one, and quotes what a shell would part', () => {
  expect(restoreCommand('/b/book.1.backup', '/b/book', 'the usual place')).toBe('portwright book restore /b/book.1.backup');
  expect(restoreCommand('/my saws/a.backup', "/it's/own.book", '--book')).toBe("portwright book restore '/my saws/a.backup' --book '/it'\\''s/own.book'");
});

test('a book that cannot be read is told, and told again when it can', async () => {
  const told: (string | undefined)[] = [];
  const answers: [number, object][] = [
    [500, { type: 'urn:portwright:damaged', title: 'The book cannot be read', status: 500, detail: 'gone', errors: [] }],
    [200, { book: '/b/book' }],
    [422, { type: 'urn:portwright:unreadable', title: 'Not understood', status: 422, detail: 'no', errors: [] }],
    [200, { saws: [] }],
  ];
  const client = new Client(() => {
    const [status, body] = answers.shift()!;
    return Promise.resolve(new Response(JSON.stringify(body), { status }));
  });
  client.onBroken = (problem: Problem | undefined) => told.push(problem?.detail);
  await client.ask('bench').catch(() => undefined);
  await client.ask('where');
  await client.ask('units', { text: 'x' }).catch(() => undefined);
  await client.ask('bench');
  expect(told).toEqual(['gone', undefined]);
});
