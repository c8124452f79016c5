// Round numbers for an axis.

/** The least of 1, 2, 5 times a power of ten that parts a span into no more than `most` steps. */
export function roundStep(span: number, most: number): number {
  if (!(span > 0) || !(most > 0)) return 1;
  const raw = span / most;
  const power = 10 ** Math.floor(Math.log10(raw));
  const step = [1, 2, 5, 10].find((one) => one * power >= raw * (1 - 1e-9)) ?? 10;
  return step * power;
}

/** Multiples of a step within a span. */
export function multiples(from: number, to: number, step: number): number[] {
  const out: number[] = [];
  for (let k = Math.ceil(from / step - 1e-9); k * step <= to + step * 1e-9; ++k) out.push(Math.round(k * step * 1e9) / 1e9 + 0);
  return out;
}

/** Round numbers of an axis, at most `most` steps. */
export function ticks(from: number, to: number, most: number): number[] {
  return multiples(from, to, roundStep(to - from, most));
}

/** Decimals that a step needs. */
export function decimals(step: number): number {
  return Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
}

/** "12 500", "−0.4": thin blanks in thousands, a real minus. */
export function numberText(value: number, places: number): string {
  const [whole = '', part] = Math.abs(value).toFixed(places).split('.');
  const grouped = whole.length > 4 || Math.abs(value) >= 1000 ? whole.replace(/\B(?=(\d{3})+$)/g, '\u202f') : whole;
  const sign = value < 0 && Number(value.toFixed(places)) !== 0 ? '\u2212' : '';
  return sign + grouped + (part === undefined ? '' : `.${part}`);
}
