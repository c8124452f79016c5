// What the page says of sprockets and widths of wood, from the answer's own numbers.

import type { ChainAnswer, Sprocket, WoodWidth } from '../made/chain';
import type { RangeRow } from './heat_words';
import { numberText } from './ticks';

export interface SprocketRow extends RangeRow {
  teeth: number;
  fitted: boolean;
  /** leaves most for the wood more often than any other */
  best: boolean;
  /** it holds its speed in the wood */
  holds: boolean;
  power: string;
  speed: string;
  chance: string;
}

/** "66 of 100": how many of the ways that the unread could be say so. */
export const ofWays = (chance: number): string => `${Math.round(100 * chance)} of 100`;

const hundreds = (rpm: number) => numberText(Math.round(rpm / 100) * 100, 0);

/** Sprockets by their teeth. */
export function sprocketRows(answer: ChainAnswer): SprocketRow[] {
  const most = Math.max(0, ...answer.sprockets.map((one) => one.chance));
  return answer.sprockets.map((one: Sprocket) => {
    const low = one.rpm_low ?? one.rpm;
    const high = one.rpm_high ?? one.rpm;
    const holds = one.meets === 'holds';
    return {
      teeth: one.teeth,
      fitted: one.fitted,
      best: most > 0 && one.chance === most,
      holds,
      name: `${one.teeth} teeth${one.fitted ? ', fitted' : ''}`,
      value: one.rpm,
      low,
      high,
      apart: holds,
      text: !holds ? one.meets : one.rpm_low === null ? `about ${hundreds(one.rpm)} rpm` : `${hundreds(low)} to ${hundreds(high)} rpm`,
      power: holds ? `about ${numberText(one.wood_power_kw, 1)} kW` : '\u2014',
      speed: holds ? `about ${numberText(one.chain_speed, 0)} m/s` : '\u2014',
      chance: ofWays(one.chance),
    };
  });
}

/** Round speeds that hold every sprocket's range. */
export function sprocketScale(rows: readonly RangeRow[]): { low: number; high: number } {
  const held = rows.filter((row) => row.apart);
  if (held.length === 0) return { low: 0, high: 1 };
  const low = Math.floor(Math.min(...held.map((row) => row.low)) / 500) * 500;
  const high = Math.ceil(Math.max(...held.map((row) => row.high)) / 500) * 500;
  return { low, high: high > low ? high : low + 500 };
}

/** "46 cm: 7 teeth, in 52 of 100 ways." */
export function widthText(width: WoodWidth): string {
  const wood = `${numberText(width.width_mm / 10, 0)} cm of wood`;
  return width.teeth === 0 ? `${wood}: it bogs with each.` : `${wood}: ${width.teeth} teeth leave most, in ${ofWays(width.chance)} ways.`;
}
