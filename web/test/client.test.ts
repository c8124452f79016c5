import { describe, expect, it, vi } from 'vitest';

import { Client, pairingOf, tokenOf, type Fetch } from '../src/wire/client';
import { ProblemError, Unreachable, problemOf, sayProblem } from '../src/wire/problem';

type Reply = { status?: number; body?: unknown; text?: string; headers?: Record<string, string> } | Error;

function door(replies: Reply[]) {
  const sent: { path: string; body: Record<string, unknown>; headers: Record<string, string> }[] = [];
  const fetcher: Fetch = (path, init) => {
    sent.push({ path, body: JSON.parse(String(init.body)) as Record<string, unknown>, headers: init.headers as Record<string, string> });
    const reply = replies.length > 1 ? replies.shift()! : replies[0]!;
    if (reply instanceof Error) return Promise.reject(reply);
    const text = reply.text ?? JSON.stringify(reply.body ?? {});
    return Promise.resolve(new Response(text, { status: reply.status ?? 200, headers: { 'X-Portwright-Epoch': '3', ...reply.headers } }));
  };
  return { client: new Client(fetcher, () => Promise.resolve()), sent };
}

const away = new TypeError('fetch failed');

describe('client', () => {
  it('brings a pairing code once, and a wrong one locks nothing', async () => {
    const locked = vi.fn();
    const wrong = { status: 401, body: { title: 'Not paired', detail: 'This code is wrong.', errors: [] } };
    const { client, sent } = door([wrong, { body: { epoch: 3, last: 1, demo: false, author: 'phone (device 1)', role: 'device' } }]);
    client.onLocked = locked;
    await expect(client.pair('1111 1111', 'phone')).rejects.toBeInstanceOf(ProblemError);
    expect(locked).not.toHaveBeenCalled();
    expect((await client.pair('4827 1593', 'phone')).role).toBe('device');
    expect(sent.map((one) => [one.path, one.body])).toEqual([
      ['/api/pair', { code: '1111 1111', name: 'phone' }],
      ['/api/pair', { code: '4827 1593', name: 'phone' }],
    ]);
  });

  it('takes a pairing code out of a fragment, and nothing else for one', () => {
    const word = '0123456789abcdef0123456789abcdef';
    expect(pairingOf(`#pair=${word}`)).toBe(word);
    for (const other of ['', '#', `#${word}`, `#token=${word}`, '#pair=1234', `#pair=${word}0`, `#pair=${word.toUpperCase()}`]) expect(pairingOf(other)).toBe('');
    expect(tokenOf(`#pair=${word}`)).toBe('');
  });

  it('asks by POST with its own header and takes the epoch of the answer along', async () => {
    const { client, sent } = door([{ body: { saws: [] } }]);
    await client.ask('bench', { hidden: false });
    await client.ask('bench');
    expect(sent[0]).toMatchObject({ path: '/api/ask/bench', body: { hidden: false }, headers: { 'X-Portwright': '1', 'Content-Type': 'application/json' } });
    expect(sent[0]!.headers['X-Portwright-Epoch']).toBeUndefined();
    expect(sent[1]!.headers['X-Portwright-Epoch']).toBe('3');
  });

  it('writes with its tab, a token and the base it stands on', async () => {
    const { client, sent } = door([{ body: { action: null } }]);
    await client.do('set', { saw: 's', field: 'crank.bore', value: '47 mm' }, { base: '12' });
    await client.do('note', { saw: 's', text: 'a' });
    expect(sent[0]!.headers['If-Match']).toBe('"12"');
    expect(sent[0]!.body).toMatchObject({ saw: 's', base: '12', client: client.tab });
    expect(sent[1]!.headers['If-Match']).toBeUndefined();
    expect(sent[0]!.body['token']).not.toBe(sent[1]!.body['token']);
  });

  it('tries a lost write again with the same token', async () => {
    const { client, sent } = door([away, { status: 503, body: { title: 'busy' } }, { body: { action: null } }]);
    await client.do('note', { saw: 's', text: 'a' });
    expect(sent).toHaveLength(3);
    expect(new Set(sent.map((one) => one.body['token'])).size).toBe(1);
  });

  it('gives up after a few turns and says so in a sentence', async () => {
    const { client, sent } = door([away]);
    await expect(client.ask('bench')).rejects.toBeInstanceOf(Unreachable);
    expect(sent).toHaveLength(4);
  });

  it('does not repeat what the program refused', async () => {
    const body = { title: 'Conflict', detail: 'changed since', errors: [{ code: 'conflict', message: 'Two values.', path: 'p', hint: '', readings: [] }] };
    const { client, sent } = door([{ status: 409, body }]);
    const thrown = await client.do('set', {}).catch((error: unknown) => error);
    expect(sent).toHaveLength(1);
    expect(thrown).toBeInstanceOf(ProblemError);
    expect((thrown as ProblemError).conflict).toBe(true);
    expect(sayProblem(thrown)).toBe('Two values.');
  });

  it('calls a changed book no conflict of a field', async () => {
    const { client } = door([{ status: 409, body: { title: 'The book was changed', errors: [] } }]);
    const thrown = (await client.do('set', {}).catch((error: unknown) => error)) as ProblemError;
    expect(thrown.conflict).toBe(false);
  });

  it('tells when the session is over, and when another book is open', async () => {
    const { client } = door([{ headers: { 'X-Portwright-Epoch': '3' } }, { headers: { 'X-Portwright-Epoch': '4' } }, { status: 401, body: {} }]);
    client.onEpoch = vi.fn();
    client.onLocked = vi.fn();
    await client.ask('bench');
    expect(client.onEpoch).not.toHaveBeenCalled();
    await client.ask('bench');
    expect(client.onEpoch).toHaveBeenCalledWith(4);
    await client.ask('bench').catch(() => {});
    expect(client.onLocked).toHaveBeenCalledOnce();
  });

  it('makes a problem of an answer that is none', () => {
    expect(problemOf(502, '<html>')).toMatchObject({ status: 502, errors: [], title: 'Answer 502' });
    expect(problemOf(500, 'null')).toMatchObject({ status: 500, errors: [] });
  });

  it('takes the token out of the address before it sends it', async () => {
    const { client, sent } = door([{ body: { epoch: 3, last: 9, demo: true, author: 'ines' } }]);
    const order: string[] = [];
    const place = { hash: '#token=0123456789abcdef', pathname: '/', search: '?at=book' } as Location;
    const past = { state: null, replaceState: (_: unknown, __: string, to: string) => order.push(`${to} ${sent.length}`) } as unknown as History;
    const entered = await client.enter(place, past);
    expect(order).toEqual(['/?at=book 0']);
    expect(sent[0]).toMatchObject({ path: '/api/enter', body: { token: '0123456789abcdef' } });
    expect(entered).toMatchObject({ last: 9, demo: true });
    expect(await client.enter({ hash: '', pathname: '/', search: '' } as Location, past)).toBeUndefined();
  });

  it('knows a token from a word', () => {
    expect(tokenOf('#token=abc')).toBe('abc');
    expect(tokenOf('#0123456789abcdef0123')).toBe('0123456789abcdef0123');
    expect(tokenOf('#top')).toBe('');
    expect(tokenOf('')).toBe('');
  });
});
