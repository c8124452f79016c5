// What the keys of the keypad do to a typed text: digits, comma, a fraction in two presses, units.

export interface Typed {
  /** "1 3/16", "-0,5" */
  number: string;
  /** "in"; empty when none is typed yet */
  unit: string;
  /** what follows the unit, kept as it is: "+- 0.5" */
  rest: string;
}

const pattern = /^\s*([-\u2212+]?[\d.,/ \u00b7\u00bd\u00bc\u00be]*?)\s*([a-zA-Z%\u00b0][^\s+\u00b1]*)?\s*((?:\+-|\u00b1).*)?$/;

/** Takes a typed text apart; undefined when it is no plain quantity. */
export function takeApart(text: string): Typed | undefined {
  const found = pattern.exec(text);
  if (found === null) return undefined;
  return { number: found[1] ?? '', unit: found[2] ?? '', rest: found[3] ?? '' };
}

export function putTogether({ number, unit, rest }: Typed): string {
  return [number, unit, rest].filter((part) => part !== '').join(' ');
}

const gap = '\u00b7'; // a fraction is begun and its digits are still to come

/** A fraction in two presses: after a whole number a gap, then the stroke: 1, 3, / and 16. */
function fraction(number: string): string {
  if (number === '' || number.includes('/') || /[.,]/.test(number)) return number;
  if (number.endsWith(gap)) return `${number.slice(0, -1)}/`;
  return number.includes(' ') ? `${number}/` : number + gap;
}

function comma(number: string): string {
  if (/[.,/]/.test(number)) return number;
  return `${/\d$/.test(number) ? number : `${number}0`},`;
}

const sign = (number: string) => (/^[-\u2212]/.test(number) ? number.slice(1) : `-${number}`);

/** One press. `unit` is the unit that is chosen when none is typed yet. */
export function press(text: string, key: string, unit: string): string {
  const parts = takeApart(text);
  if (parts === undefined || (key === 'rub out' && parts.number === '')) return key === 'rub out' ? text.slice(0, -1) : text;
  const chosen = parts.unit !== '' ? parts.unit : unit;
  if (key === 'rub out') {
    const number = parts.number.slice(0, -1);
    return number === '' ? '' : putTogether({ ...parts, number: number.trimEnd() });
  }
  const next = { comma, fraction, sign }[key];
  const number = next !== undefined ? next(parts.number) : parts.number.replace(gap, ' ') + key;
  return putTogether({ ...parts, number, unit: chosen });
}

/** Changes the unit and leaves the number. */
export function pressUnit(text: string, unit: string): string {
  const parts = takeApart(text);
  return parts === undefined ? text : putTogether({ ...parts, unit });
}

// What is typed most at a bench; the rest of a kind's units can be typed in words.
const often = ['mm', 'in', 'thou', 'deg', 'cc', 'cm2', 'psi', 'bar', 'g', 'rpm', 'kW', 'hp', 'C', 'F', '%', 'l'];

/** Three units to stand beside the digits, the chosen one among them. */
export function beside(units: readonly string[], chosen: string): string[] {
  const rank = (unit: string) => (often.includes(unit) ? often.indexOf(unit) : often.length);
  const named = units.map((unit) => (unit === 'cm3' ? 'cc' : unit)); // as a bench says it
  const first = [...named].sort((a, b) => rank(a) - rank(b)).slice(0, 3);
  return first.includes(chosen) || !named.includes(chosen) ? first : [...first.slice(0, 2), chosen];
}
