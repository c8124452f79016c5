// What the page says of heat. Degrees are said only where a spot was read on this very saw: whatever an answer holds, an
// estimate without one is order and difference.

import type { Figure, HeatAnswer, HeatDifference, HeatPlace } from '../made/heat';
import { signed } from './figure_text';
import { numberText } from './ticks';

export interface PlaceRow {
  place: HeatPlace;
  rank: number;
  name: string;
  /** against the mean of the bore's wall, with its range */
  over: string;
  apart: boolean;
  /** with cuts, against stock */
  change: string;
  changeApart: boolean;
  /** calibrated only */
  degrees: string;
}

const degree = /\u00b0|\bdeg(?:rees)? C\b|\d\s?C\b/;

/** Text without a temperature: empty when it holds one and may not. */
function allowed(text: string, calibrated: boolean): string {
  return calibrated || !degree.test(text) ? text : '';
}

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

/** Places of a part, the hottest first. */
export function placeRows(answer: HeatAnswer, part: 'cylinder' | 'piston'): PlaceRow[] {
  return answer.places
    .filter((place) => place.part === part)
    .map((place) => ({
      place,
      rank: place.rank,
      name: capital(place.name),
      over: allowed(place.over_mean.text, answer.calibrated),
      apart: place.over_mean.distinguishable,
      change: place.change === null ? '' : allowed(place.change.text, answer.calibrated),
      changeApart: place.change?.distinguishable ?? false,
      degrees: answer.calibrated ? (place.temperature?.text ?? '') : '',
    }));
}

/** Figures; without a spot that was read a temperature waits for one. */
export function heatFigures(answer: HeatAnswer): Figure[] {
  if (answer.calibrated) return answer.figures;
  return answer.figures.map((figure) => {
    const said = [figure.text, figure.low_text, figure.high_text, figure.stock_text].join(' ');
    if (figure.unit !== 'K' && !degree.test(said)) return figure;
    return { ...figure, value: null, low: null, high: null, text: '', low_text: '', high_text: '', stock_text: '', waits_for: ['readings.spot'] };
  });
}

export interface RangeRow {
  name: string;
  value: number;
  low: number;
  high: number;
  apart: boolean;
  text: string;
}

const row = (name: string, difference: HeatDifference, calibrated: boolean): RangeRow => ({
  name,
  value: difference.value,
  low: difference.low,
  high: difference.high,
  apart: difference.distinguishable,
  text: allowed(difference.text, calibrated),
});

/** Another way of running, each alone: what it does to the hottest place, the head and the ring groove, and what
 * the answer adds to it. */
export function effectRows(answer: HeatAnswer): { what: string; tail: string; rows: RangeRow[] }[] {
  return answer.effects.map((effect) => ({
    what: allowed(effect.what, answer.calibrated) || capital(effect.what.replace(/\u00b0/g, ' deg')),
    tail: allowed(effect.sentence.split('. ').slice(1).join('. '), answer.calibrated),
    rows: [row('hottest place', effect.hottest, answer.calibrated), row('head', effect.head, answer.calibrated), row('ring groove', effect.groove, answer.calibrated)],
  }));
}

/** Where the heat of burning goes, in hundredths of what is set free. */
export function shareRows(answer: HeatAnswer): RangeRow[] {
  return answer.shares.map(({ way, low, high }) => ({
    name: capital(way),
    value: 50 * (low + high),
    low: 100 * low,
    high: 100 * high,
    apart: true,
    text: `${numberText(100 * low, 0)} to ${numberText(100 * high, 0)} %`,
  }));
}

/** Round ends of an axis that holds all rows, and nothing. */
export function rangeScale(rows: readonly { low: number; high: number }[]): { low: number; high: number } {
  const low = Math.min(0, ...rows.map((one) => one.low));
  const high = Math.max(0, ...rows.map((one) => one.high));
  return high > low ? { low, high } : { low: -1, high: 1 };
}

/** What the map says, from the same places. */
export function heatSentence(answer: HeatAnswer): string {
  const hottest = answer.places.find((place) => place.part === 'cylinder' && place.rank === 1);
  if (hottest === undefined) return '';
  const told = allowed(hottest.sentence, answer.calibrated).replace(/^[^:]*: /, '');
  return told === '' ? `Hottest: ${hottest.name}.` : `Hottest: ${hottest.name}, ${told}`;
}

/** With cuts: what they do to the hottest place, the ring groove and the skirt's room, as differences from stock. */
export function heatChanges(answer: HeatAnswer): { name: string; text: string; apart: boolean }[] {
  const hottest = answer.places.find((place) => place.part === 'cylinder' && place.rank === 1);
  const groove = answer.places.find((place) => place.part === 'piston' && place.name === 'ring groove');
  const places = [hottest, groove].flatMap((place) =>
    place === undefined || place.change === null
      ? []
      : [{ name: place === hottest ? `Hottest, ${place.name}` : capital(place.name), text: allowed(place.change.text, answer.calibrated), apart: place.change.distinguishable }],
  );
  const room = heatFigures(answer).find((figure) => figure.id === 'heat.clearance');
  if (room?.change === undefined || room.value === null) return places;
  const { value, low, high, distinguishable } = room.change;
  const told = distinguishable && low !== null && high !== null;
  return [...places, { name: room.label, text: told ? `${signed(value, 3)} mm (${signed(low, 3)} to ${signed(high, 3)})` : 'not told apart', apart: told }];
}

/** What the map of the change says, from the places: what gets hotter and what cooler, by what is told apart. */
export function changeSentence(answer: HeatAnswer): string {
  const moved = answer.places.filter((place) => place.part === 'cylinder' && place.change?.distinguishable);
  const told = (places: HeatPlace[], how: string) => {
    const first = places[0];
    return first === undefined ? '' : `Gets ${how} most: ${first.name}, ${allowed(first.change!.text, answer.calibrated)}.`;
  };
  const hotter = moved.filter((place) => place.change!.value > 0).sort((a, b) => b.change!.value - a.change!.value);
  const cooler = moved.filter((place) => place.change!.value < 0).sort((a, b) => a.change!.value - b.change!.value);
  const parts = [told(hotter, 'hotter'), told(cooler, 'cooler')].filter((part) => part !== '');
  return parts.length > 0 ? parts.join(' ') : 'No place of the cylinder is told apart from stock.';
}

/** The fields that heat waits for, as the answer names them; a row of fins is begun with its first field. */
export function heatWaits(paths: readonly string[]): string[] {
  return paths.filter((path) => path !== '').map((path) => (path === 'cooling.fins' || path === 'cooling' ? 'cooling.fins.1.from' : path));
}
