import { describe, expect, it } from 'vitest';

import { crankHand, keyAngle } from '../../src/draw/crank_hand';
import { crankName } from '../../src/draw/crank';

const key = (name: string, shiftKey = false) => ({ key: name, shiftKey });

describe('the crank in hand', () => {
  it('goes by one degree, by ten with shift, by thirty by page, and to the dead centres', () => {
    expect(['ArrowRight', 'ArrowUp', 'ArrowLeft', 'ArrowDown'].map((name) => keyAngle(key(name), 134))).toEqual([135, 135, 133, 133]);
    expect([keyAngle(key('ArrowRight', true), 134), keyAngle(key('PageUp'), 134), keyAngle(key('PageDown'), 134)]).toEqual([144, 164, 104]);
    expect([keyAngle(key('Home'), 134), keyAngle(key('End'), 134), keyAngle(key('a'), 134)]).toEqual([0, 180, undefined]);
  });

  it('passes the ruler\'s end to its beginning', () => {
    expect(keyAngle(key('PageUp'), 250)).toBe(-80);
  });

  it('follows a finger only while it is held', () => {
    const turned: number[] = [];
    let times = 1;
    const surface = { getBoundingClientRect: () => ({ left: 100 }), setPointerCapture: () => {} };
    const hand = crankHand(() => ({ surface: surface as unknown as Element, left: 0, right: 360, here: 0, times }), (degrees) => turned.push(degrees));
    const at = (clientX: number) => ({ clientX, pointerId: 1, currentTarget: surface }) as unknown as PointerEvent;
    hand.pointer.onpointermove(at(150));
    hand.pointer.onpointerdown(at(200));
    hand.pointer.onpointermove(at(210));
    hand.pointer.onpointerup();
    hand.pointer.onpointermove(at(220));
    expect(turned).toEqual([0, 10]);
    times = 2;
    hand.pointer.onpointerdown(at(320));
    expect(turned.at(-1)).toBe(10);
  });

  it('names the marks of the ruler', () => {
    expect([-60, 0, 134, 180].map(crankName)).toEqual(['\u221260', 'TDC', '134', 'BDC']);
  });
});
