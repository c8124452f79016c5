import { describe, expect, it } from 'vitest';

import type { RubbingAnswer } from '../src/made/rubbing';
import { drawn, freshCorners, middle, nearest, nudge, pixelsPerMm, turned, within } from '../src/measure/hand';
import { type Question, Rubbing } from '../src/measure/rubbing.svelte';

const size = { width: 1200, height: 900 };
const corners = [[100, 100], [1100, 110], [1090, 850], [110, 840]];
const handles = [[400, 300], [600, 300], [600, 500], [400, 500]];
const turn = () => new Promise((done) => setTimeout(done, 0));
const key = (name: string, rest = {}) => ({ key: name, shiftKey: false, ctrlKey: false, metaKey: false, altKey: false, ...rest });

/** A program that finds the square, and takes points as they are put. */
function measured(photo: string, tell: Partial<RubbingAnswer> = {}) {
  const asked: Question[] = [];
  const written: { name: string; what: Record<string, unknown>; base: string | undefined }[] = [];
  const door = {
    ask: (_: string, question: object = {}) => {
      const hints = structuredClone(question) as Question;
      asked.push(hints);
      const points = hints.points.length > 0 ? hints.points : handles;
      return Promise.resolve({ found: true, square: true, corners: hints.corners.length > 0 ? hints.corners : corners, scale: 8, handles: points, outline: points, moved: hints.points.length, ...tell } as never);
    },
    do: (name: string, what: Record<string, unknown> = {}, options: { base?: string } = {}) => {
      written.push({ name, what, base: options.base });
      return Promise.resolve({ action: { number: 1 } } as never);
    },
  };
  return { rubbing: new Rubbing(photo, size, door), asked, written };
}

describe('places on a photo', () => {
  it('stay on it', () => {
    expect(within([-4, 950], size)).toEqual([0, 900]);
    expect(within([3, 4], size)).toEqual([3, 4]);
  });

  it('are chosen by the nearest within reach', () => {
    expect(nearest([[0, 0], [10, 0]], [7, 0], 5)).toBe(1);
    expect(nearest([[0, 0], [10, 0]], [5, 20], 5)).toBe(-1);
    expect(nearest([], [5, 20], 5)).toBe(-1);
  });

  it('are moved by the arrows: a tenth, with Shift a whole millimetre', () => {
    expect(nudge(key('ArrowUp'))).toEqual([0, -0.1]);
    expect(nudge(key('ArrowRight', { shiftKey: true }))).toEqual([1, 0]);
    expect(nudge(key('ArrowLeft', { altKey: true }))).toBeUndefined();
    expect(nudge(key('a'))).toBeUndefined();
  });

  it('have a size before the square is found, and a square to draw to its place', () => {
    expect(pixelsPerMm(8, size)).toBe(8);
    expect(pixelsPerMm(0, size)).toBeCloseTo(5.625);
    const fresh = freshCorners(size);
    for (const one of fresh) expect(within(one, size)).toEqual(one);
    expect(turned(fresh)[0]).toBe(fresh[1]);
    expect(turned(turned(turned(turned(fresh))))).toEqual(fresh);
    expect(middle(fresh, size)).toEqual([600, 450]);
    expect(middle([], size)).toEqual([600, 450]);
  });

  it('are drawn as a line', () => {
    expect(drawn([[1, 2], [3.25, 4]])).toBe('M1.0 2.0L3.3 4.0Z');
    expect(drawn([[1, 2], [3, 4]], false)).toBe('M1.0 2.0L3.0 4.0');
    expect(drawn([])).toBe('');
  });
});

describe('a rubbing in hand', () => {
  it('asks for nothing but what a person added', async () => {
    const { rubbing, asked } = measured('p1');
    rubbing.ask('metric');
    await turn();
    expect(asked).toEqual([{ photo: 'p1', port: '', units: 'metric', corners: [], inside: [], points: [], upright: [], line: 'middle', across: '', down: '', taped: false, face: 'inside' }]);
    expect(rubbing.corners).toEqual(corners);
    expect(rubbing.points).toHaveLength(4);
  });

  it('sends all corners when one was drawn elsewhere, and forgets them again', async () => {
    const { rubbing, asked } = measured('p2');
    rubbing.ask();
    await turn();
    rubbing.put({ what: 'corner', index: 2 }, [1300, 800]);
    expect(asked).toHaveLength(1); // nothing is asked under the finger
    rubbing.ask();
    await turn();
    expect(asked[1]!.corners).toEqual([corners[0], corners[1], [1200, 800], corners[3]]);
    rubbing.release('corner');
    await turn();
    expect(asked[2]!.corners).toEqual([]);
  });

  it('moves a point by millimetres at the scale that was found', async () => {
    const { rubbing, asked } = measured('p3');
    rubbing.ask();
    await turn();
    rubbing.grip = { what: 'point', index: 0 };
    rubbing.shift(rubbing.grip, [0, -0.1]);
    await turn();
    expect(asked[1]!.points[0]![0]).toBe(400);
    expect(asked[1]!.points[0]![1]).toBeCloseTo(299.2);
    rubbing.step(-1);
    expect(rubbing.grip).toEqual({ what: 'point', index: 3 });
    rubbing.step(1);
    expect(rubbing.name(rubbing.grip)).toBe('Point 1 of 4');
  });

  it('lets points go that belong to another outline', async () => {
    const { rubbing, asked } = measured('p4');
    rubbing.ask();
    await turn();
    for (const change of [() => rubbing.say({ line: 'inner' }), () => ((rubbing.aim = 'inside'), rubbing.set([500, 400])), () => rubbing.turn()]) {
      rubbing.shift({ what: 'point', index: 1 }, [1, 0]);
      await turn();
      expect(asked.at(-1)!.points).toHaveLength(4);
      change();
      await turn();
      expect(asked.at(-1)!.points).toEqual([]);
    }
    expect(asked.at(-1)).toMatchObject({ line: 'inner', inside: [[500, 400]] });
  });

  it('takes a line along the bore by two touches, and a second opening beside a bridge', async () => {
    const { rubbing, asked } = measured('p5');
    rubbing.aim = 'upright';
    rubbing.set([300, 200]);
    expect(asked).toHaveLength(0);
    rubbing.set([310, 700]);
    await turn();
    expect(asked[0]!.upright).toEqual([[300, 200], [310, 700]]);
    rubbing.aim = 'inside';
    rubbing.set([400, 400]);
    rubbing.aim = 'other inside';
    rubbing.set([700, 400]);
    await turn();
    await turn();
    expect(asked.at(-1)!.inside).toEqual([[400, 400], [700, 400]]);
    rubbing.aim = 'upright';
    rubbing.hints.upright = [];
    rubbing.set([1, 1]);
    rubbing.leaveAim();
    expect(rubbing.hints.upright).toEqual([]);
  });

  it('asks no more when nothing new is said', async () => {
    const { rubbing, asked } = measured('p6');
    rubbing.say({ across: '119.8 mm' });
    rubbing.say({ across: '119.8 mm' });
    await turn();
    await turn();
    expect(asked).toHaveLength(1);
  });

  it('is kept with all that was added, on the revision that the page shows', async () => {
    const { rubbing, written } = measured('p7');
    rubbing.say({ across: '119.8 mm', down: '120.1 mm', taped: true });
    rubbing.of('exhaust');
    await turn();
    await rubbing.keep('saw1', '12');
    expect(written[0]).toMatchObject({ name: 'rubbing', base: '12', what: { saw: 'saw1', photo: 'p7', port: 'exhaust', across: '119.8 mm', down: '120.1 mm', taped: true, face: 'inside' } });
  });

  it('is there again after another screen', async () => {
    const first = measured('p8').rubbing;
    first.say({ down: '120.1 mm' });
    first.of('exhaust');
    await turn();
    const again = measured('p8').rubbing;
    expect([again.hints.down, again.port]).toEqual(['120.1 mm', 'exhaust']);
    expect(measured('p9').rubbing.hints.down).toBe('');
  });
});
