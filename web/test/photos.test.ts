import { describe, expect, it, vi } from 'vitest';

import type { BookDoneAnswer } from '../src/made/book_done';
import { taken } from '../src/parts/words';
import { PhotoQueue } from '../src/state/photo_queue.svelte';
import { type Request, type SendPhoto, photoAt, photoDoor } from '../src/wire/photo_door';
import { look, mostBytes, typeOf } from '../src/wire/photo_file';
import { ProblemError, Unreachable, problemOf } from '../src/wire/problem';

const jpeg = [0xff, 0xd8, 0xff, 0xe0, 0, 16];
const png = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];
const heic = [0, 0, 0, 24, ...[...'ftypheic'].map((letter) => letter.charCodeAt(0))];
const file = (bytes: number[], name = 'roof.jpg') => new File([new Uint8Array(bytes)], name);
const done = (photo: string, number = 1) => ({ added: [photo], action: { number } }) as unknown as BookDoneAnswer;
const refusal = (status: number, message: string) => new ProblemError(problemOf(status, JSON.stringify({ errors: [{ code: 'unreadable', message, path: '', hint: '', readings: [] }] })));

describe('a file that is to be a photo', () => {
  it('is known by what stands in it, whatever it is called', async () => {
    expect(typeOf(new Uint8Array(jpeg))).toBe('image/jpeg');
    expect(typeOf(new Uint8Array(png))).toBe('image/png');
    expect(await look(file(png, 'roof.jpg'))).toEqual({ type: 'image/png', says: '' });
    expect((await look(file([0x25, 0x50, 0x44, 0x46], 'roof.jpg'))).says).toMatch(/Neither a JPEG nor a PNG/);
    expect((await look(file(png.slice(0, 7)))).type).toBeUndefined();
  });

  it('is refused in a sentence when it is a HEIC, empty or too big', async () => {
    expect((await look(file(heic, 'IMG.jpg'))).says).toMatch(/HEIC.*JPEG/);
    expect((await look(file([]))).says).toMatch(/empty/);
    const long = (size: number) => Object.defineProperty(file(jpeg), 'size', { value: size });
    expect((await look(long(mostBytes + 1))).says).toMatch(/25 MB at most/);
    expect((await look(long(mostBytes))).says).toBe('');
  });
});

describe('photos on their way', () => {
  function queue(send: SendPhoto) {
    const kept = vi.fn();
    return { queue: new PhotoQueue(send, kept, () => Promise.resolve()), kept };
  }

  it('go one after the other, each with a token of its own', async () => {
    let under = 0;
    let most = 0;
    const tokens: string[] = [];
    const { queue: line, kept } = queue(async (_, what, told) => {
      most = Math.max(most, ++under);
      tokens.push(what.token);
      told(0.5);
      await Promise.resolve();
      --under;
      return done(`p${tokens.length}`, tokens.length);
    });
    await Promise.all([line.add('a', [file(jpeg), file(png)]), line.add('b', [file(jpeg)])]);
    expect(most).toBe(1);
    expect(new Set(tokens).size).toBe(3);
    expect(kept.mock.calls.map(([number]) => number as number)).toEqual([1, 2, 3]);
    expect(line.open).toBe(false);
    expect(line.of('a').map((one) => [one.stage, one.share])).toEqual([['kept', 1], ['kept', 1]]);
    line.seen(['p1', 'p2', 'p3']);
    expect(line.coming).toEqual([]);
  });

  it('never send what cannot be a photo, and go on with the rest', async () => {
    const send = vi.fn<SendPhoto>(() => Promise.resolve(done('p')));
    const { queue: line } = queue(send);
    await line.add('a', [file(heic, 'a.heic'), file(jpeg, 'b.jpg')]);
    expect(send).toHaveBeenCalledTimes(1);
    expect(line.coming.map((one) => [one.name, one.stage])).toEqual([['a.heic', 'refused'], ['b.jpg', 'kept']]);
    line.drop(line.coming[0]!.key);
    expect(line.coming.map((one) => one.name)).toEqual(['b.jpg']);
  });

  it('are tried again with the same token until the program answers', async () => {
    const tokens: string[] = [];
    let away = true;
    const { queue: line } = queue((_, what) => {
      tokens.push(what.token);
      return away ? Promise.reject(new Unreachable()) : Promise.resolve(done('p'));
    });
    await line.add('a', [file(jpeg), file(jpeg)]);
    expect(line.coming.map((one) => one.stage)).toEqual(['away', 'waiting']);
    expect(line.coming[0]!.says).toMatch(/Not in the book yet/);
    expect(line.open).toBe(true);
    expect(new Set(tokens).size).toBe(1);
    expect(tokens).toHaveLength(4);
    away = false;
    await line.again();
    expect(line.coming.map((one) => one.stage)).toEqual(['kept', 'kept']);
    expect(tokens[4]).toBe(tokens[0]);
    expect(tokens[5]).not.toBe(tokens[0]);
  });

  it('say when the saw had the photo before, and go when an earlier try had kept it', async () => {
    const answers = [{ added: ['p1'], action: null, notices: ['The saw has it.'] }, { added: [], action: { number: 4 }, notices: [] }];
    const { queue: line } = queue(() => Promise.resolve(answers.shift() as unknown as BookDoneAnswer));
    await line.add('a', [file(jpeg), file(png)]);
    expect(line.coming.map((one) => [one.stage, one.says])).toEqual([['there', 'The saw has it.']]);
    line.drop(line.coming[0]!.key);
    expect(line.coming).toEqual([]);
  });

  it('wait while the door is busy, and are not repeated when refused', async () => {
    const replies = [refusal(503, 'busy'), refusal(429, 'slower'), refusal(422, 'This is no picture.')];
    const send = vi.fn<SendPhoto>(() => Promise.reject(replies.shift()!));
    const { queue: line } = queue(send);
    await line.add('a', [file(jpeg)]);
    expect(send).toHaveBeenCalledTimes(3);
    expect(line.coming[0]).toMatchObject({ stage: 'refused', says: 'This is no picture.' });
    await line.again();
    expect(send).toHaveBeenCalledTimes(3);
  });
});

describe('the door for photos', () => {
  function door(epoch = 3) {
    const sent: { method: string; url: string; headers: Record<string, string>; body: unknown }[] = [];
    const made: Request[] = [];
    const hear = { tab: 't1', epoch, learn: vi.fn(), onLocked: vi.fn() };
    const send = photoDoor(hear, () => {
      const one = { method: '', url: '', headers: {} as Record<string, string>, body: undefined as unknown };
      const request = {
        upload: { onprogress: null }, onload: null, onerror: null, onabort: null, ontimeout: null, status: 0, responseText: '', timeout: 0,
        open: (method: string, url: string) => Object.assign(one, { method, url }),
        setRequestHeader: (name: string, value: string) => (one.headers[name] = value),
        getResponseHeader: (name: string) => (name === 'X-Portwright-Epoch' ? '4' : null),
        send: (body: unknown) => (one.body = body),
      } as unknown as Request;
      sent.push(one);
      made.push(request);
      return request;
    });
    return { send, sent, made, hear };
  }
  const what = { saw: 's 1', token: 'abc', type: 'image/jpeg' as const };
  const answer = (request: Request, status: number, text: string) => {
    Object.assign(request, { status, responseText: text });
    request.onload!();
  };

  it('sends the file as it is, with its own header, its token and its tab', async () => {
    const { send, sent, made, hear } = door();
    const body = file(jpeg);
    const shares: number[] = [];
    const kept = send(body, what, (share) => shares.push(share));
    made[0]!.upload.onprogress!({ lengthComputable: true, loaded: 3, total: 6 } as ProgressEvent);
    answer(made[0]!, 200, JSON.stringify(done('p9')));
    expect((await kept).added).toEqual(['p9']);
    expect(sent[0]).toMatchObject({ method: 'POST', url: '/api/do/photo?saw=s+1&token=abc&client=t1', headers: { 'Content-Type': 'image/jpeg', 'X-Portwright': '1', 'X-Portwright-Epoch': '3' } });
    expect(sent[0]!.body).toBe(body);
    expect(shares).toEqual([0.5]);
    expect(hear.learn).toHaveBeenCalledWith(4);
  });

  it('says a refusal as every write does, and that the session is over', async () => {
    const { send, made, hear } = door(0);
    const refused = send(file(jpeg), what, () => {}).catch((thrown: unknown) => thrown);
    answer(made[0]!, 401, '{"title":"No entry"}');
    expect(await refused).toBeInstanceOf(ProblemError);
    expect(hear.onLocked).toHaveBeenCalledOnce();
    const lost = [send(file(jpeg), what, () => {}), send(file(jpeg), what, () => {}), send(file(jpeg), what, () => {})].map((one) => one.catch((thrown: unknown) => thrown));
    made[1]!.onerror!();
    made[2]!.ontimeout!();
    answer(made[3]!, 200, '{"half');
    for (const thrown of await Promise.all(lost)) expect(thrown).toBeInstanceOf(Unreachable);
  });

  it('names photos by their id and nothing else', () => {
    expect(photoAt('6f', 'small')).toBe('/api/photo/6f?size=small');
    expect(photoAt('../x', 'whole')).toBe('/api/photo/..%2Fx?size=whole');
  });
});

describe('the time that a camera noted', () => {
  const now = new Date(2026, 4, 3, 18, 0);
  it('is said as every time is', () => {
    expect(taken('2026:05:03 14:02:11', now)).toBe('today 14:02');
    expect(taken('2025:12:24 08:00:00', now)).toBe('24 Dec 2025');
    expect(taken('yesterday', now)).toBe('yesterday');
  });
});
