// Look-ups over the turn. The page knows no crank law: it reads the table the program sent, by the degree.

/** Value of a table of 0 to 360 deg at any angle; between two degrees by proportion. */
export function at(table: readonly number[], degrees: number): number {
  const last = table.length - 1;
  if (last < 1) return table[0] ?? 0;
  const turn = ((degrees % last) + last) % last;
  const below = Math.floor(turn);
  const part = turn - below;
  return table[below]! * (1 - part) + table[Math.min(below + 1, last)]! * part;
}

/** Angle on the way down at which the crown edge has dropped so far; undefined beyond both dead centres. */
export function angleOf(drop: readonly number[], wanted: number): number | undefined {
  let bottom = 0;
  drop.forEach((value, k) => (bottom = value > drop[bottom]! ? k : bottom));
  if (wanted < drop[0]! || wanted > drop[bottom]!) return undefined;
  for (let k = 0; k < bottom; ++k) {
    const from = drop[k]!;
    const to = drop[k + 1]!;
    if (wanted <= to) return to > from ? k + (wanted - from) / (to - from) : k;
  }
  return bottom;
}

/** Whether something that opens and closes in the turn is open at an angle; over TDC it closes at the smaller one. */
export function isOpen(event: { opens_deg: number; closes_deg: number }, degrees: number): boolean {
  const turn = ((degrees % 360) + 360) % 360;
  const { opens_deg: opens, closes_deg: closes } = event;
  return opens <= closes ? turn > opens && turn < closes : turn > opens || turn < closes;
}

/** The ruler under the drawing: one turn that parts neither what is open about TDC nor about BDC. */
export const turn = { from: -100, to: 260 } as const;

/** An angle as it stands on that ruler. */
export function onRuler(degrees: number): number {
  const span = turn.to - turn.from;
  return ((((degrees - turn.from) % span) + span) % span) + turn.from;
}

/** x of an angle between the ruler's ends. */
export function rulerX(degrees: number, left: number, right: number): number {
  return left + ((degrees - turn.from) / (turn.to - turn.from)) * (right - left);
}

/** The angle of an x, to half a degree, held between the ruler's ends. */
export function rulerAngle(x: number, left: number, right: number): number {
  const degrees = turn.from + ((x - left) / (right - left)) * (turn.to - turn.from);
  return Math.min(turn.to - 0.5, Math.max(turn.from, Math.round(degrees * 2) / 2));
}

/** "134°" and "after TDC". */
export function crankText(degrees: number): { value: string; side: string } {
  const turned = onRuler(degrees);
  const value = `${Math.abs(turned) % 1 === 0 ? Math.abs(turned) : Math.abs(turned).toFixed(1)}\u00b0`;
  if (turned === 0) return { value, side: 'at TDC' };
  if (turned === 180) return { value, side: 'at BDC' };
  return { value, side: turned < 0 ? 'before TDC' : 'after TDC' };
}

/** A mark of the ruler: "TDC", "−60", "134". */
export function crankName(degrees: number): string {
  if (degrees === 0) return 'TDC';
  if (degrees === 180) return 'BDC';
  return degrees < 0 ? `\u2212${-degrees}` : String(degrees);
}

/** Spans of the ruler on which an event is open: one, or two where it passes the ruler's end. */
export function spans(event: { opens_deg: number; closes_deg: number }): { from: number; to: number }[] {
  const from = onRuler(event.opens_deg);
  const to = onRuler(event.closes_deg);
  if (to > from) return [{ from, to }];
  return [
    { from, to: turn.to },
    { from: turn.from, to },
  ].filter((span) => span.to > span.from);
}

/** The angle nearest to one at which the piston stands so much lower [mm]; by the table alone. */
export function angleBy(drop: readonly number[], from: number, down: number): number | undefined {
  const wanted = at(drop, from) + down;
  const step = 0.1;
  for (let away = 0; away < 90; away += step) {
    for (const way of [1, -1]) {
      const a = at(drop, from + away * way) - wanted;
      const b = at(drop, from + (away + step) * way) - wanted;
      if (a === 0 || a * b < 0) return from + (away + (step * a) / (a - b || 1)) * way;
    }
  }
  return undefined;
}
