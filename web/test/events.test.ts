import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';

import { Events, type Source } from '../src/wire/events';

class Stream implements Source {
  onopen: ((event: Event) => void) | null = null;
  onerror: ((event: Event) => void) | null = null;
  closed = false;
  readonly #hear = new Map<string, (event: MessageEvent<string>) => void>();
  addEventListener(kind: string, hear: (event: MessageEvent<string>) => void) {
    this.#hear.set(kind, hear);
  }
  tell(kind: string, data: string) {
    this.#hear.get(kind)?.({ data } as MessageEvent<string>);
  }
  close() {
    this.closed = true;
  }
}

class Tab extends EventTarget {
  hidden = false;
  turn(hidden: boolean) {
    this.hidden = hidden;
    this.dispatchEvent(new Event('visibilitychange'));
  }
}

describe('events', () => {
  beforeEach(() => void vi.useFakeTimers());
  afterEach(() => void vi.useRealTimers());

  function begin() {
    const streams: Stream[] = [];
    const events = new Events(() => streams[streams.push(new Stream()) - 1]!);
    const tab = new Tab();
    const stop = events.start(tab as unknown as Document);
    return { streams, events, tab, stop };
  }

  it('tells what was heard, and no longer after one has left', () => {
    const { streams, events } = begin();
    const heard: number[] = [];
    const leave = events.on('book', (told) => heard.push(told.last));
    streams[0]!.tell('book', '{"last":7}');
    streams[0]!.tell('book', 'not json');
    leave();
    streams[0]!.tell('book', '{"last":8}');
    expect(heard).toEqual([7]);
  });

  it('closes with the tab out of sight and opens with it in sight', () => {
    const { streams, tab } = begin();
    tab.turn(true);
    expect(streams[0]!.closed).toBe(true);
    tab.turn(false);
    expect(streams).toHaveLength(2);
    expect(streams[1]!.closed).toBe(false);
  });

  it('comes back after a break, later each time, and says whether it stands', () => {
    const { streams, events } = begin();
    const line: boolean[] = [];
    events.onLine = (standing) => line.push(standing);
    streams[0]!.onopen?.(new Event('open'));
    streams[0]!.onerror?.(new Event('error'));
    vi.advanceTimersByTime(500);
    expect(streams).toHaveLength(2);
    streams[1]!.onerror?.(new Event('error'));
    vi.advanceTimersByTime(900);
    expect(streams).toHaveLength(2);
    vi.advanceTimersByTime(200);
    expect(streams).toHaveLength(3);
    streams[2]!.onopen?.(new Event('open'));
    expect(line).toEqual([true, false, false, true]);
  });

  it('does not come back in a tab out of sight', () => {
    const { streams, tab } = begin();
    streams[0]!.onerror?.(new Event('error'));
    tab.turn(true);
    vi.advanceTimersByTime(60_000);
    expect(streams).toHaveLength(1);
  });
});
