// Bands that builders steer for, beside the value: three levels, stock, work and race, at one scale.

export interface Band {
  low: number | null;
  high: number | null;
  text: string;
}

export interface Aim {
  stock: Band | null;
  work: Band | null;
  race: Band | null;
}

export interface Bar {
  name: 'stock' | 'work' | 'race';
  from: number;
  to: number;
  /** the end has a limit; an open one has none */
  fromShut: boolean;
  toShut: boolean;
  y: number;
}

export interface Bands {
  bars: Bar[];
  value?: number;
  low?: number;
  high?: number;
}

const names = ['stock', 'work', 'race'] as const;

/** Lays the bands out on a width; the value keeps its place even past every band. */
export function aimBands(aim: Aim, figure: { value: number | null; low: number | null; high: number | null }, width: number, height: number): Bands {
  const bands = names.flatMap((name) => (aim[name] === null ? [] : [{ name, band: aim[name]! }]));
  const ends = bands.flatMap(({ band }) => [band.low, band.high]).concat([figure.value, figure.low, figure.high]);
  const known = ends.filter((end): end is number => end !== null);
  const first = Math.min(...known);
  const last = Math.max(...known);
  const span = last > first ? last - first : 1;
  const margin = 4;
  const x = (value: number) => margin + ((value - first) / span) * (width - 2 * margin);
  const step = height / 4;
  const bars = bands.map(({ name, band }) => ({
    name,
    from: band.low === null ? 0 : x(band.low),
    to: band.high === null ? width : x(band.high),
    fromShut: band.low !== null,
    toShut: band.high !== null,
    y: step * (names.indexOf(name) + 1),
  }));
  const out: Bands = { bars };
  if (figure.value !== null) out.value = x(figure.value);
  if (figure.low !== null && figure.high !== null) {
    out.low = x(figure.low);
    out.high = x(figure.high);
  }
  return out;
}

/** The bands in words. */
export function aimSentence(aim: Aim): string {
  return names.flatMap((name) => (aim[name] === null ? [] : [`${name} ${aim[name]!.text}`])).join(', ');
}
