// Two what-ifs side by side, as differences: each from stock, and the one from the other.

import { type Changed, changeRow, placesOf, printed, signed } from './figure_text';

export interface Figured extends Changed {
  id: string;
  label: string;
}

export interface Between {
  id: string;
  change: number | null;
  distinguishable: boolean;
  text_change: string;
}

export interface TwoRow {
  id: string;
  label: string;
  /** printed, with its unit */
  stock: string;
  unit: string;
  /** change from stock of the one in hand, of the other, and what the other has more or less: empty when not told apart */
  hand: string;
  other: string;
  between: string;
}

const number = (text: string) => text.replace(/^about /, '').replace(/[ \u00a0](?=[^\d\s]).*$/, '');

/** What the other has more or less, no finer than the figure itself by more than a digit. */
function between(one: Between | undefined, places: number): string {
  if (one === undefined || !one.distinguishable || one.change === null) return '';
  const said = number(one.text_change);
  return placesOf(said) <= places + 1 ? said : signed(one.change, places + 1);
}

/** Figures that either what-if tells apart from stock, or from the other, in the order given. */
export function twoRows(hand: readonly Figured[], other: readonly Figured[], both: readonly Between[]): TwoRow[] {
  const others = new Map(other.map((figure) => [figure.id, figure]));
  const apart = new Map(both.map((one) => [one.id, one]));
  return hand.flatMap((figure): TwoRow[] => {
    const there = others.get(figure.id);
    if (there === undefined || figure.value === null || there.value === null) return [];
    const [mine, its] = [changeRow(figure), changeRow(there)];
    const now = printed(figure);
    const more = between(apart.get(figure.id), placesOf(now.value));
    const row = { id: figure.id, label: figure.label, stock: mine?.stock ?? its?.stock ?? now.value, unit: now.unit, hand: mine?.change ?? '', other: its?.change ?? '', between: more };
    return row.hand === '' && row.other === '' && row.between === '' ? [] : [row];
  });
}
