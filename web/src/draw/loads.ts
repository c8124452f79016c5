// Loads of the bottom end over the turn, as panels on the crank's ruler, and what stands under the crank.

import { at, crankText } from './crank';
import { numberText } from './ticks';
import type { Panel, Series } from './traces';

const names: Record<string, string> = {
  thrust: 'thrust',
  wall_left: 'wall left',
  wall_pressure: 'skirt on wall',
  rod: 'rod, + pressed',
  rod_free: 'rod free',
  small_end: 'small end',
  big_end: 'big end',
  big_end_free: 'big end free',
  main: 'main bearings',
};

const layout: { head: string; unit: string; of: string[] }[] = [
  { head: 'side thrust, + toward the power side', unit: 'N', of: ['thrust'] },
  { head: 'wall left under the skirt', unit: '%', of: ['wall_left'] },
  { head: 'load', unit: 'N', of: ['big_end', 'small_end', 'big_end_free'] },
  { head: 'skirt on the wall left', unit: 'MPa', of: ['wall_pressure'] },
  { head: 'rod, pressed or pulled', unit: 'N', of: ['rod', 'rod_free'] },
  { head: 'main bearings together', unit: 'N', of: ['main'] },
];

/** Panels in the order of the work: thrust over the wall that takes it, then what pins and bearings bear. */
export function loadPanels(series: readonly Series[]): Panel[] {
  return layout
    .map(({ head, unit, of }) => ({
      head,
      unit,
      series: of.flatMap((id) => series.filter((one) => one.id === id && one.values.some((value) => value !== 0)).map((one) => ({ ...one, label: names[id] ?? one.label }))),
      beside: [],
    }))
    .filter((panel) => panel.series.length > 0);
}

const value = (series: readonly Series[], id: string, crank: number) => {
  const own = series.find((one) => one.id === id);
  return own === undefined || own.values.length === 0 ? undefined : at(own.values, crank);
};

/** What the crank's place says of thrust and wall; empty without a thrust. */
export function thrustSentence(series: readonly Series[], crank: number): string {
  const thrust = value(series, 'thrust', crank);
  if (thrust === undefined) return '';
  const { value: angle, side } = crankText(crank);
  const where = side.startsWith('at') ? side : `${angle} ${side}`;
  const newtons = Math.round(Math.abs(thrust));
  const leans = newtons < 1 ? 'the piston leans on neither side' : `the piston leans ${numberText(newtons, 0)} N ${thrust > 0 ? "toward the power stroke's side" : 'toward the other side'}`;
  const pin = value(series, 'pin_height', crank);
  const left = value(series, 'wall_left', crank);
  const down = pin === undefined ? '' : `, its pin ${numberText(pin, 0)} mm down`;
  return `${where.startsWith('at') ? 'At' + where.slice(2) : `At ${where}`} ${leans}${down}${left === undefined ? '' : `; the windows leave ${numberText(left, 0)} % of the wall there`}.`;
}
