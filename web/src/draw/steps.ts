// Cuts as steps: what the page changes is an amount, an order, a list. The words of a cut are the program's.

import type { Step } from '../made/steps';
import { decimals, numberText } from './ticks';
import { signed } from './figure_text';

/** One cut as it is sent: no grammar but its words. */
export interface StepSent {
  act: string;
  amount?: number;
  amounts?: number[];
  unit?: string;
  tail?: string;
  words?: string;
}

export function sent(step: Step): StepSent {
  const out: StepSent = { act: step.act };
  if (step.amount !== undefined) out.amount = step.amount;
  if (step.amounts.length > 0) out.amounts = step.amounts;
  if (step.unit !== '') out.unit = step.unit;
  if (step.tail !== '') out.tail = step.tail;
  if (step.words !== '') out.words = step.words;
  return out;
}

/** The amount as it stands beside its keys. */
export function amountText(step: Step): string {
  if (step.amount === undefined) return step.amounts.length > 0 ? step.amounts.map((one) => numberText(one, 2)).join(' ') : '';
  const fine = step.step === undefined ? 2 : Math.max(decimals(step.step), fraction(step.amount));
  return step.form === 'change' ? signed(step.amount, fine) : numberText(step.amount, fine);
}

/** Decimals that a typed amount has, at most three. */
export function fraction(value: number): number {
  return [0, 1, 2].find((places) => Math.abs(value * 10 ** places - Math.round(value * 10 ** places)) < 1e-6) ?? 3;
}

/** "0,8", "30 thou", "-.5 mm": the number and the unit after it, else nothing. */
export function typedAmount(text: string, unit: string): { amount: number; unit: string } | undefined {
  const said = /^\s*([+\u2212\u2013-]?)\s*(\d+(?:[.,]\d*)?|[.,]\d+)\s*([a-z]+[23]?)?\s*$/i.exec(text);
  if (said === null) return undefined;
  const size = Number(said[2]!.replace(',', '.'));
  const amount = said[1] === '' || said[1] === '+' ? size : -size;
  return Number.isFinite(amount) ? { amount, unit: said[3] ?? unit } : undefined;
}

/** An amount that a finger drags: on a step, within the bounds of its cut. */
export function dragged(step: Pick<Step, 'least' | 'most' | 'step'>, amount: number): number {
  const fine = step.step ?? 0.1;
  const on = Math.round(amount / fine) * fine;
  return Math.round(Math.min(step.most ?? on, Math.max(step.least ?? on, on)) * 1e6) / 1e6;
}

/** Units that stand after an amount. */
export const unitText = (unit: string): string => ({ cm2: 'cm\u00b2', cm3: 'cm\u00b3', deg: '\u00b0' })[unit] ?? unit;

/** A list with one of its members put elsewhere. */
export function put<T>(list: readonly T[], from: number, to: number): T[] {
  const out = [...list];
  const [one] = out.splice(from, 1);
  if (one !== undefined) out.splice(to, 0, one);
  return out;
}
