// What the answer says of a way, in words for a list; a cut taken apart for the bench, where it is typed as it was cut.

import type { GapRow } from '../draw/gaps';
import type { Figure, PlanCut, PlanLimit, PlanReached, PlanWay, PlanWish } from '../made/plan';

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** A sentence begins with a capital and ends with a point. */
export function sentence(text: string): string {
  const begun = capital(text);
  return begun === '' || /[.?!]$/.test(begun) ? begun : `${begun}.`;
}

/** Sentences of the command line, for the page: its options have other names here. */
export const forPage = (text: string): string => text.replace(/--chance/g, 'The chance, under the options,').replace(/--gaskets/g, 'gaskets at hand, under the options,').replace(/--done/g, 'what is done');

export const count = (number: number, one: string, many = `${one}s`): string => `${number} ${number === 1 ? one : many}`;

/** "454 mm³ of metal, 1 turned, 2 by hand" */
export const costs = (way: PlanWay): string => [way.metal_mm3 === null ? `metal: ${way.metal_text}` : `${way.metal_text} of metal`, way.work].filter((part) => part !== '').join(', ');

export interface ReachedRow {
  label: string;
  /** "at least 1.0 mm" */
  asked: string;
  stock: string;
  reached: string;
  /** "rounding leaves −0.02 deg", "met" */
  left: string;
}

const units: Record<string, string> = { cm3: 'cc', '-': '' };

/** What rounding leaves of a wish; nothing where the last digit shown says that it is met. */
function leftWords(wish: PlanWish, reached: PlanReached): string {
  if (!/[1-9]/.test(reached.left_text)) return 'met';
  const unit = units[wish.unit] ?? wish.unit;
  return `rounding leaves ${reached.left_text}${unit === '' ? '' : ` ${unit}`}`;
}

/** "99.0 deg", "at least 1.0 mm" */
export const askedWords = ({ relation, asked_text: asked }: PlanWish): string => (relation === 'is' || asked.startsWith(relation) ? asked : `${relation} ${asked}`);

/** Wishes of a way, beside what it makes of them. */
export function reachedRows(wishes: readonly PlanWish[], way: PlanWay): ReachedRow[] {
  return wishes.flatMap((wish, k) => {
    const reached = way.wishes[k];
    if (reached === undefined) return [];
    return [{ label: capital(wish.label), asked: askedWords(wish), stock: wish.stock_text, reached: reached.reached_text, left: leftWords(wish, reached) }];
  });
}

/** A chance in words; no sampling knows one of a hundred better than this. */
export const chanceWords = (chance: number): string => (chance < 0.01 ? 'under 1 %' : `${Math.round(chance * 100)} %`);

export interface LimitRow {
  id: string;
  label: string;
  /** "0.61 mm (24 thou), at least 0.35 mm (14 thou)" */
  holds: string;
  /** "0.26 mm (10 thou) left" */
  left: string;
  chance: string;
  /** drawn, where it is a length */
  gap?: GapRow;
}

/** Limits of a way, the nearest by its chance and then by its share first. */
export function limitRows(limits: readonly PlanLimit[], figures: readonly Figure[] = []): LimitRow[] {
  const share = (limit: PlanLimit) => Math.abs(limit.margin) / Math.max(Math.abs(limit.stop), 1e-9);
  return [...limits]
    .sort((a, b) => b.chance - a.chance || share(a) - share(b))
    .map((limit) => {
      const said = /^(.*?): (.*? left)/.exec(limit.text);
      const row: LimitRow = { id: `${limit.rule} ${limit.figure}`, label: limit.label, holds: said?.[1] ?? limit.text, left: said?.[2] ?? '', chance: chanceWords(limit.chance) };
      const figure = figures.find((one) => one.id === limit.figure);
      if (limit.unit === 'mm') row.gap = { id: limit.figure, value: limit.value, low: figure?.low ?? null, high: figure?.high ?? null, stock: figure?.stock?.value ?? null, limit: limit.stop, side: /at (least|most)/.exec(limit.text)?.[0] ?? 'at least' };
      return row;
    });
}

// --- cuts as text

export interface CutParts {
  /** "roof exhaust", "gasket out" */
  act: string;
  /** "+1.95 mm"; empty: nothing to type */
  amount: string;
  /** "wide 5.5 mm" */
  tail: string;
}

/** Takes a cut apart: "crown edge -0.15 mm wide 5.5 mm". */
export function cutParts(cut: string): CutParts {
  const said = /^(.+?) ([-\u2212+]?[\d.,]+ ?(?:mm|thou|in|deg|cc|cm3|%)?)(?: (.+))?$/.exec(cut.trim());
  return said === null ? { act: cut.trim(), amount: '', tail: '' } : { act: said[1]!, amount: said[2]!, tail: said[3] ?? '' };
}

/** The planned cut with what it came to. A hand may leave the sign out: no plan adds metal. */
export function asCut(planned: string, typed: string): string {
  const { act, amount, tail } = cutParts(planned);
  const said = typed.trim().replace(/\u2212/g, '-');
  if (amount === '' || said === '') return planned;
  if (said.toLowerCase().startsWith(act)) return said;
  const sign = /^[-+]/.test(said) || !/^[-\u2212+]/.test(amount) ? '' : amount.charAt(0).replace('\u2212', '-');
  return [act, sign + said, tail].filter((part) => part !== '').join(' ');
}

const inMm: Record<string, number> = { mm: 1, in: 25.4, thou: 0.0254 };

function amountMm(cut: string): number | undefined {
  const said = /^([-+]?)([\d.,]+) ?(mm|in|thou)$/.exec(cutParts(cut).amount.replace('\u2212', '-'));
  if (said === null) return undefined;
  const number = Number(said[2]!.replace(',', '.'));
  return Number.isFinite(number) ? number * inMm[said[3]!]! : undefined;
}

/** Planned beside done: "planned -0.35 mm, 0.03 mm more was cut". */
export function besidePlanned(planned: string, done: string): string {
  if (planned === '') return 'not planned here';
  const { amount } = cutParts(planned);
  if (amount === '') return planned === done ? 'as planned' : `planned: ${planned}`;
  const [a, b] = [amountMm(planned), amountMm(done)];
  const said = `planned ${minus(amount)}`;
  if (a === undefined || b === undefined) return said;
  const more = b - a;
  if (Math.abs(more) < 0.005) return `${said}, as planned`;
  return `${said}, ${Math.abs(more).toFixed(2)} mm ${more > 0 ? 'more' : 'less'} was cut`;
}

/** A list of cuts, cut by cut. */
export const cutsOf = (text: string): string[] => text.split(/[;\n]/).map((one) => one.trim()).filter((one) => one !== '');

/** Cuts of a way that are not done yet: those that it was planned from, and those that were ticked since. */
export function restOf(way: PlanWay, planned: readonly string[], done: readonly string[] = planned): PlanCut[] {
  const since = done.slice(planned.length).map((cut) => cutParts(cut).act);
  return way.steps.slice(planned.length).filter((step) => {
    const at = since.indexOf(cutParts(step.cut).act);
    if (at >= 0) since.splice(at, 1);
    return at < 0;
  });
}

const acts = (text: string) => new Set(cutsOf(text).map((cut) => cutParts(cut).act.replace(/ (?:out|to)$/, '')));

/** The way that is most like the one that was in hand, by what it cuts; the first where none is. */
export function likest(ways: readonly PlanWay[], cuts: string): number {
  const wanted = acts(cuts);
  let best = 0;
  let most = 0;
  ways.forEach((way, k) => {
    const own = acts(way.cuts);
    const both = [...own].filter((act) => wanted.has(act)).length;
    const share = both / Math.max(1, own.size + wanted.size - both);
    if (share > most + 1e-9) [best, most] = [k, share];
  });
  return best;
}

/** A minus as it is printed. */
export const minus = (text: string): string => text.replace(/(^|\s)-(?=\d)/g, '$1\u2212');
