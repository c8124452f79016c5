// A wish as rows and as one line of text. The text is what is sent; a row is one wish of it, taken apart as far as the
// grammar goes (docs/plan.md). What a row cannot hold stays as it was typed.

import type { Figure, Saw } from '../made/study';

export type Relation = 'at' | 'at least' | 'at most' | 'as stock' | 'at least as stock' | 'at most as stock';

export const relations: readonly Relation[] = ['at', 'at least', 'at most', 'as stock', 'at least as stock', 'at most as stock'];

export interface Wish {
  /** what is wished of: "exhaust opens", "squish"; empty: the text is not one that a row can hold */
  figure: string;
  relation: Relation;
  /** number and unit as typed */
  value: string;
  /** as typed, as long as nobody turns the row */
  text: string;
}

/** A figure that may be wished, and what it is on the saw as read. */
export interface Offer {
  /** as a wish says it */
  figure: string;
  label: string;
  /** what it belongs to: a port, or squish and chamber */
  group: string;
  /** before any cut, for a person; empty: not known yet */
  stock: string;
}

const subject = /^(.+? (?:opens|closes|duration|width)|blowdown|squish|chamber|(?:trapped|full) ratio|skirt cover(?: exhaust| intake)?)$/i;

const free = (text: string): Wish => ({ figure: '', relation: 'at', value: '', text });

/** One wish, taken apart. */
export function readWish(text: string): Wish {
  const said = text.trim().replace(/\s+/g, ' ');
  const stock = /^(.+?)( at least| at most)? as stock$/i.exec(said);
  if (stock !== null && subject.test(stock[1]!)) {
    const relation = `${stock[2] === undefined ? '' : `${stock[2].trim().toLowerCase()} `}as stock` as Relation;
    return { figure: stock[1]!.toLowerCase(), relation, value: '', text: said };
  }
  const number = /^(.+?)(?: (at least|at most|at))? ([-\u2212+]?[\d.,].*)$/i.exec(said);
  if (number === null) return free(said);
  const relation = (number[2]?.toLowerCase() ?? 'at') as Relation;
  const named = number[1]!.toLowerCase();
  // "exhaust at 99 deg" is when it opens; without "at" the program asks of what.
  const figure = subject.test(named) ? named : relation === 'at' && number[2] !== undefined ? `${named} opens` : '';
  return figure === '' ? free(said) : { figure, relation, value: number[3]!, text: said };
}

/** A whole text, wish by wish. */
export const readWishes = (text: string): Wish[] => text.split(/[;\n]/).map((one) => one.trim()).filter((one) => one !== '').map(readWish);

/** Whether a row says all that a wish needs. */
export const isWhole = (wish: Wish): boolean => wish.figure === '' || wish.relation.endsWith('as stock') || wish.value.trim() !== '';

/** One wish as the program takes it. */
export function writeWish({ figure, relation, value, text }: Wish): string {
  if (figure === '') return text;
  if (relation.endsWith('as stock')) return `${figure} ${relation}`;
  if (relation !== 'at') return `${figure} ${relation} ${value.trim()}`;
  const port = /^(.+) opens$/.exec(figure);
  return port !== null && /deg|\u00b0/.test(value) ? `${port[1]} at ${value.trim()}` : `${figure} ${value.trim()}`;
}

/** The rows as one text; those that want something yet are left out. */
export const writeWishes = (wishes: readonly Wish[]): string => wishes.filter(isWhole).map((wish) => wish.text || writeWish(wish)).join('; ');

/** A row turned by hand: its text is made anew. */
export function turned(wish: Wish, change: Partial<Pick<Wish, 'relation' | 'value'>>): Wish {
  const next = { ...wish, ...change, text: '' };
  return isWhole(next) ? { ...next, text: writeWish(next) } : next;
}

const parts = [
  ['opens', 'opens'],
  ['closes', 'closes'],
  ['duration', 'duration'],
  ['width', 'width_of_bore'],
] as const;

const whole = [
  ['squish', 'squish.clearance'],
  ['chamber', 'chamber.volume'],
  ['trapped ratio', 'chamber.trapped_ratio'],
  ['full ratio', 'chamber.full_ratio'],
] as const;

const skirts = [
  ['skirt cover exhaust', 'skirt.cover_exhaust'],
  ['skirt cover intake', 'skirt.cover_intake'],
] as const;

/** Every figure that may be wished of this saw, in the order of the work. */
export function offersOf(saw: Saw, figures: readonly Figure[]): Offer[] {
  const stock = (id: string) => {
    const figure = figures.find((one) => one.id === id);
    return figure === undefined || figure.value === null ? '' : figure.text;
  };
  const one = (group: string) => ([figure, id]: readonly [string, string]): Offer => ({ figure, label: figure, group, stock: stock(id) });
  const ports = saw.ports.flatMap((port) => parts.map(([word, id]) => one(port.name)([`${port.name} ${word}`, `port.${port.name}.${id}`])));
  const transfers = saw.ports.filter((port) => port.kind === 'transfer').map((port) => port.name);
  const spread = (id: string) => [...new Set(transfers.map((name) => stock(`port.${name}.${id}`)))].filter((text) => text !== '').join(', ');
  const every = transfers.length < 2 ? [] : parts.map(([word, id]): Offer => ({ figure: `transfers ${word}`, label: `transfers ${word.replace(/(open|close)s/, '$1')}`, group: 'transfers', stock: spread(id) }));
  const down = figures.some((figure) => figure.id === 'timing.blowdown') ? [one('blowdown and skirt')(['blowdown', 'timing.blowdown'])] : [];
  const covers = skirts.filter(([, id]) => figures.some((figure) => figure.id === id)).map(one('blowdown and skirt'));
  return [...ports, ...every, ...down, ...covers, ...whole.map(one('squish and chamber'))];
}

/** The figure a wish speaks of, among those on offer: "exhausts" is the exhaust, "skirt cover" the exhaust side's. */
export function offerOf(wish: Wish, offers: readonly Offer[]): Offer | undefined {
  const figure = wish.figure === 'skirt cover' ? 'skirt cover exhaust' : wish.figure;
  return offers.find((offer) => offer.figure === figure) ?? offers.find((offer) => offer.figure === figure.replace(/s (?=\w+$)/, ' '));
}
