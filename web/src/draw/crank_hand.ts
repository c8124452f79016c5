// The crank under a finger and under the keys: one behaviour for every drawing that stands on the crank's ruler.

import { onRuler, rulerAngle } from './crank';

/** Where the ruler lies on the screen, and the crank on it. */
export interface OnRuler {
  surface: Element | undefined;
  left: number;
  right: number;
  here: number;
  /** how many times larger the drawing stands than it is laid out */
  times: number;
}

const single: Record<string, number> = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1 };
const ends: Record<string, number> = { Home: 0, End: 180 };

/** The angle that a key asks for; undefined when it is none of the crank's. Shift takes ten degrees at a time. */
export function keyAngle(event: Pick<KeyboardEvent, 'key' | 'shiftKey'>, here: number): number | undefined {
  const end = ends[event.key];
  if (end !== undefined) return end;
  const step = single[event.key];
  const move = step !== undefined ? step * (event.shiftKey ? 10 : 1) : { PageUp: 30, PageDown: -30 }[event.key];
  return move === undefined ? undefined : onRuler(Math.round(here + move));
}

/** Handlers: `pointer` for the surface of a drawing, `onkeydown` for its slider. */
export function crankHand(ruler: () => OnRuler, turnTo: (degrees: number) => void) {
  let held = false;
  const to = (event: PointerEvent) => {
    const { surface, left, right, times } = ruler();
    if (surface !== undefined) turnTo(rulerAngle((event.clientX - surface.getBoundingClientRect().left) / times, left, right));
  };
  const leave = () => void (held = false);
  return {
    pointer: {
      onpointerdown(event: PointerEvent) {
        held = true;
        (event.currentTarget as Element).setPointerCapture(event.pointerId);
        to(event);
      },
      onpointermove(event: PointerEvent) {
        if (held) to(event);
      },
      onpointerup: leave,
      onpointercancel: leave,
    },
    onkeydown(event: KeyboardEvent) {
      const angle = keyAngle(event, ruler().here);
      if (angle === undefined) return;
      turnTo(angle);
      event.preventDefault();
    },
  };
}
