// Wishes about the engine and free cuts as text, and what an answer says, in words for a list.

import type { SeekAnswer, SeekGain } from '../made/seek';
import { numberText } from '../draw/ticks';
import { readWishes, writeWishes } from './wish_text';

const aim = /^(?:most|least)\b/i;

/** Whether a list of wishes speaks of the engine. */
export const speaksOfEngine = (text: string): boolean => readWishes(text).some((one) => aim.test(one.text));

/** The wish with another aim: the one there is gives way, the rest must still hold. */
export function withAim(text: string, wanted: string): string {
  return writeWishes([...readWishes(wanted), ...readWishes(text).filter((one) => !aim.test(one.text))]);
}

/** The wish with one more that must hold, or without it where it is there. */
export function turnedHold(text: string, hold: string): string {
  const all = readWishes(text);
  const left = all.filter((one) => one.text.toLowerCase() !== hold);
  return writeWishes(left.length < all.length ? left : [...all, ...readWishes(hold)]);
}

export const holds = (text: string, hold: string): boolean => readWishes(text).some((one) => one.text.toLowerCase() === hold);

export interface FreeCut {
  name: string;
  /** "1.2 mm"; empty: as far as the program judges */
  most: string;
}

/** "base; roof exhaust up to 1.2 mm". */
export const readFree = (text: string): FreeCut[] =>
  text
    .split(';')
    .map((one) => one.trim())
    .filter((one) => one !== '')
    .map((one) => {
      const [, name = one, most = ''] = /^(.+?) up to (.+)$/.exec(one) ?? [];
      return { name, most };
    });

export const writeFree = (cuts: readonly FreeCut[]): string => cuts.map(({ name, most }) => (most.trim() === '' ? name : `${name} up to ${most.trim()}`)).join('; ');

/** Cuts that may be free; the first six are the usual ones. What a saw has not, the program refuses with its name. */
export const freeNames = ['base', 'roof exhaust', 'widen exhaust', 'roof transfers', 'floor intake', 'mouths', 'band', 'crown edge', 'widen transfers', 'widen intake', 'skirt intake', 'outlets', 'advance'] as const;

/** "+7.3 %, 5.3 to 9.4 %" */
export const gainWords = (gain: SeekGain): string => (gain.range_text === '' ? gain.text : `${gain.text}, ${gain.range_text}`);

/** "+7.3", a change in per cent. */
export const percentWords = (value: number, places = 1): string => (numberText(value, places).startsWith('\u2212') || Number(value.toFixed(places)) === 0 ? '' : '+') + numberText(value, places);

/** What was tried, as a sentence. */
export function triedSentence({ tried, best }: Pick<SeekAnswer, 'tried' | 'best'>): string {
  const held = tried.filter((one) => one.holds).length;
  const said = `${tried.length} ${tried.length === 1 ? 'list was' : 'lists were'} tried, ${held} of them hold${held === 1 ? 's' : ''} what must hold`;
  if (best === undefined) return `${said}; none is better than stock so far.`;
  return `${said}. The best so far has ${percentWords(best.power)} % of most power, ${percentWords(best.pull)} % of pull and ${percentWords(best.heat)} % of heat into the cylinder's wall.`;
}
