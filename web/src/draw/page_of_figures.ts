// Which figures stand on the page of a builder, in the order of the work; the rest is behind "all figures".

export interface Named {
  id: string;
  label: string;
}

const first = [
  /^port\.[^.]+\.opens$/,
  /^timing\.blowdown$/,
  /^port\.[^.]+\.width_of_bore$/,
  /^squish\.clearance$/,
  /^chamber\.trapped_ratio$/,
  /^gauge\.compression$/,
];

const groups: [string, RegExp][] = [
  ['Timing', /^(timing\.|port\.[^.]+\.(opens|closes|duration|drop|deg_per_mm)$|group\.[^.]+\.first_opens$)/],
  ['Windows', /^(port\.|group\.|wall\.|exhaust\.|passage\.)/],
  ['Compression', /^(chamber\.|squish\.|case\.|gauge\.)/],
  ['Piston and rings', /^(skirt\.|crown\.|piston\.|ring\.|pin\.|impulse\.|spigot\.)/],
  ['Crank and drive', /^(crank\.|drive\.|readings\.|ignition\.|carburettor\.|intake\.)/],
];

/** The builder's page: openings in the file's order, blowdown, exhaust width, squish, compression. */
export function pageFigures<F extends Named>(figures: readonly F[], exhausts: readonly string[]): F[] {
  const wanted = first.flatMap((pattern) => figures.filter((figure) => pattern.test(figure.id)));
  return wanted.filter((figure) => !figure.id.endsWith('.width_of_bore') || exhausts.some((port) => figure.id === `port.${port}.width_of_bore`));
}

/** All figures under the heads of the work; what no head takes comes last. */
export function groupedFigures<F extends Named>(figures: readonly F[]): { head: string; figures: F[] }[] {
  const left = new Set(figures);
  const out = groups.map(([head, pattern]) => {
    const own = figures.filter((figure) => left.has(figure) && pattern.test(figure.id));
    own.forEach((figure) => left.delete(figure));
    return { head, figures: own };
  });
  return [...out, { head: 'More', figures: [...left] }].filter((group) => group.figures.length > 0);
}

/** What follows the comma in an aim's words: "exhaust opens, after TDC" says "after TDC". */
export function subline(item: string | undefined): string {
  return item?.split(', ').slice(1).join(', ') ?? '';
}

const short: [RegExp, string][] = [
  [/^squish\.clearance$/, 'Squish'],
  [/^squish\.working$/, 'Working squish'],
  [/^chamber\.trapped_ratio$/, 'Trapped ratio'],
  [/^gauge\.compression$/, 'Gauge'],
  [/^skirt\.cover_exhaust$/, 'Skirt cover'],
  [/^crown\.over_floors$/, 'Crown over floors'],
  [/^wall\.least$/, 'Least wall'],
];

/** A name that fits beside three numbers. */
export function shortName(figure: Named): string {
  const said = short.find(([pattern]) => pattern.test(figure.id))?.[1];
  return said ?? figure.label.replace(/^Width of (.+)$/, (_, port: string) => `${port.charAt(0).toUpperCase()}${port.slice(1)} chord`).replace(/ opens$/, '');
}
