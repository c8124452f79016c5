// A figure as a limit dimension: value, unit said once, its 95 % range stacked beside it. Rounding is the program's;
// the page only parts the printed value from its unit and gives the ends of the range the same last digit.

import { numberText } from './ticks';

export interface Shown {
  value: number | null;
  unit: string;
  text: string;
  low: number | null;
  high: number | null;
  /** printed by the program, where it does */
  low_text?: string | undefined;
  high_text?: string | undefined;
}

export interface Printed {
  /** "103.0", "about 1.6 to 2.9" */
  value: string;
  /** "°", "mm", "%" */
  unit: string;
  /** in the other unit of the shop: "21 thou" */
  beside: string;
  high: string;
  low: string;
}

const signs: Record<string, string> = { deg: '\u00b0' };

/** Parts of "0.54 mm (21 thou)". */
export function printed(figure: Shown): Printed {
  const [, main = figure.text, beside = ''] = /^(.*?)(?: \(([^)]*)\))?$/.exec(figure.text) ?? [];
  const [, value = main, said = ''] = /^((?:about )?[+\u2212-]?[\d.,\u202f]+(?: to [\d.,\u202f]+)?)(?:[ \u00a0](.+))?$/.exec(main) ?? [];
  const unit = signs[said] ?? said;
  const places = placesOf(value);
  return { value, unit, beside, high: end(figure.high, figure.high_text, figure, value, places), low: end(figure.low, figure.low_text, figure, value, places) };
}

/** Decimals of a printed number. */
export function placesOf(text: string): number {
  return /\.(\d+)/.exec(text)?.[1]?.length ?? 0;
}

/** An end of the range: as the program prints it, else with the digits of the value when both are in one unit. */
function end(value: number | null, text: string | undefined, figure: Shown, shown: string, places: number): string {
  if (text !== undefined && text !== '') return text.replace(/ .*$/, '');
  if (value === null || figure.value === null || figure.low === figure.high) return '';
  const number = Number(shown.replace(/[\u202f,]/g, '').replace('\u2212', '-'));
  const same = Number.isFinite(number) && Math.abs(number - figure.value) <= 0.51 * 10 ** -places * (places === 0 ? roundness(number) : 1);
  return same ? numberText(value, places) : '';
}

/** A whole number may be rounded to tens or hundreds. */
function roundness(number: number): number {
  let unit = 1;
  while (number !== 0 && number % (unit * 10) === 0) unit *= 10;
  return unit;
}

export interface Changed extends Shown {
  stock?: { value: number; low: number | null; high: number | null } | undefined;
  change?: { value: number; low: number | null; high: number | null; distinguishable: boolean } | undefined;
  stock_text?: string | undefined;
  change_text?: string | undefined;
}

export interface Row {
  stock: string;
  now: Printed;
  /** "+3.9"; empty when it is not told apart */
  change: string;
  apart: boolean;
}

/** Digits that a range allows: the last one is no finer than a tenth of the range's half. */
export function digitsFor(low: number | null, high: number | null, fallback: number): number {
  if (low === null || high === null || !(high > low)) return fallback;
  return Math.min(3, Math.max(0, Math.ceil(-Math.log10((high - low) / 2) - 0.3)));
}

const bareNumber = (text: string) => text.replace(/^about /, '').replace(/[ \u00a0](?=[^\d\s]).*$/, '');

/** Stock, what-if and change of a figure; nothing when it has no stock to hold against. */
export function changeRow(figure: Changed): Row | undefined {
  if (figure.stock === undefined || figure.change === undefined || figure.value === null) return undefined;
  const now = printed(figure);
  const places = placesOf(now.value);
  const apart = figure.change.distinguishable;
  const stock = figure.stock_text ? bareNumber(figure.stock_text) : numberText(figure.stock.value, places);
  const given = figure.change_text ? bareNumber(figure.change_text) : '';
  const change = given !== '' && placesOf(given) <= places + 1 ? given : given !== '' ? signed(figure.change.value, places + 1) : signed(figure.change.value, Math.min(places, digitsFor(figure.change.low, figure.change.high, places)));
  return { stock, now, change: apart ? change : '', apart };
}

/** "+3.9", "−0.45". */
export function signed(value: number, places: number): string {
  const text = numberText(value, places);
  return value > 0 && !/^[0.]+$/.test(text) ? `+${text}` : text;
}
