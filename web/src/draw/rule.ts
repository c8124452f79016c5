// A slider is a rule: its scale is the unit, its stop mark is on it.

import { decimals, multiples, numberText, roundStep } from './ticks';

export interface Mark {
  x: number;
  long: boolean;
  text: string;
}

export interface Rule {
  from: number;
  to: number;
  left: number;
  right: number;
  marks: Mark[];
}

const end = 14; // free at both ends, for the words at them

/** Lays a rule out: small marks at least 5 apart, words at least 40. */
export function rule(least: number, most: number, width: number): Rule {
  const to = most > least ? most : least + 1;
  const left = end;
  const right = width - end;
  const room = right - left;
  const big = roundStep(to - least, Math.max(1, Math.floor(room / 44)));
  const small = big / ([10, 5, 2].find((parts) => (big / parts / (to - least)) * room >= 5) ?? 1);
  const x = (value: number) => left + ((value - least) / (to - least)) * room;
  const places = decimals(big);
  const marks = multiples(least, to, small).map((value) => {
    const long = Math.abs(value / big - Math.round(value / big)) < 1e-6;
    return { x: x(value), long, text: long ? numberText(value, places) : '' };
  });
  return { from: least, to, left, right, marks };
}

export const ruleX = (one: Rule, value: number): number =>
  one.left + ((Math.min(one.to, Math.max(one.from, value)) - one.from) / (one.to - one.from)) * (one.right - one.left);

/** The value under an x: on a step, within the rule. */
export function ruleValue(one: Rule, x: number, step: number): number {
  const raw = one.from + ((x - one.left) / (one.right - one.left)) * (one.to - one.from);
  return snapped(Math.min(one.to, Math.max(one.from, raw)), step, one.from, one.to);
}

/** A value on a step, but an end of the rule where that is nearer than the step reaches. */
export function snapped(value: number, step: number, least: number, most: number): number {
  const on = Math.round(value / step) * step;
  const held = Math.min(most, Math.max(least, on));
  return Math.round(held * 1e6) / 1e6;
}

/** One press of a key. */
export function pressed(value: number, step: number, times: number, least: number, most: number): number {
  return snapped(value + step * times, step, least, most);
}
