// The compression gauge, pull by pull: its needle rises with each pull and stands until the next.

import { textWidth } from './lettering';
import { chain } from './path';
import { multiples, numberText, roundStep } from './ticks';

export interface GaugeFrame {
  left: number;
  right: number;
  top: number;
  bottom: number;
  /** pulls, and pressure at the top of the axis [bar] */
  pulls: number;
  most: number;
}

/** The frame for what the needle shows after each pull and for the gauge as read; the axis begins at nothing. */
export function gaugeFrame(strokes: readonly number[], read: number | null, width: number, height: number): GaugeFrame {
  const highest = Math.max(1, ...strokes, read ?? 0) * 1.08;
  return { left: 34, right: width - 12, top: 22, bottom: height - 28, pulls: Math.max(1, strokes.length), most: highest };
}

/** x of a pull; the first stands one pitch from the axis, and one pitch is left after the last. */
export const pullX = (frame: GaugeFrame, pull: number): number => frame.left + (pull / (frame.pulls + 1)) * (frame.right - frame.left);
export const barY = (frame: GaugeFrame, bar: number): number => frame.bottom - (bar / frame.most) * (frame.bottom - frame.top);

/** The needle over the pulls, as stairs. */
export function needleLine(strokes: readonly number[], frame: GaugeFrame): string {
  const points = [{ x: frame.left, y: barY(frame, 0) }];
  strokes.forEach((bar, k) => {
    const x = pullX(frame, k + 1);
    points.push({ x, y: points.at(-1)!.y }, { x, y: barY(frame, bar) });
  });
  return chain([...points, { x: frame.right, y: points.at(-1)!.y }]);
}

export function gaugeLevels(frame: GaugeFrame): { y: number; text: string }[] {
  const step = roundStep(frame.most, 8);
  return multiples(step, frame.most, step).map((bar) => ({ y: barY(frame, bar), text: numberText(bar, step < 1 ? 1 : 0) }));
}

/** Pulls whose numbers stand under the axis; every one where there is room. */
export function pullNames(frame: GaugeFrame): number[] {
  const pitch = (frame.right - frame.left) / (frame.pulls + 1);
  const every = Math.max(1, Math.ceil((textWidth('00', 14) + 8) / pitch));
  return multiples(1, frame.pulls, 1).filter((pull) => pull % every === 0 || every === 1);
}

/** What the picture says, from the same numbers. */
export function gaugeSentence(strokes: readonly number[], read: number | null): string {
  const last = strokes.at(-1);
  if (last === undefined) return 'No pull was reckoned.';
  const near = strokes.findIndex((bar) => bar >= last * 0.95) + 1;
  const stands = near === 1 ? 'after the first pull' : `after ${near} pulls`;
  const readText = read === null ? '' : `; ${numberText(read, 1)} bar was read`;
  return `The first pull brings ${numberText(strokes[0]!, 1)} bar, the needle is within a twentieth of its end ${stands} and ends at ${numberText(last, 1)} bar${readText}.`;
}
