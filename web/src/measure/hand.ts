// Places on a photo [pixels of the picture as it is kept; x to the right, y down] and how a hand moves them.

export type Pair = readonly [number, number];

export interface Size {
  width: number;
  height: number;
}

/** What can be taken in hand on the photo. */
export interface Grip {
  what: 'corner' | 'point' | 'inside' | 'upright';
  index: number;
}

/** Corners in the order of the program: left at the roof's side, then clockwise as printed. */
export const cornerNames = ['roof, left', 'roof, right', 'floor, right', 'floor, left'] as const;

export const pair = (numbers: readonly number[]): Pair => [numbers[0] ?? 0, numbers[1] ?? 0];

/** A place that stays on the photo. */
export function within([x, y]: Pair, { width, height }: Size): Pair {
  return [Math.min(width, Math.max(0, x)), Math.min(height, Math.max(0, y))];
}

/** The place nearest to another, when it is no farther than `reach`; -1: none is. */
export function nearest(places: readonly Pair[], to: Pair, reach: number): number {
  let found = -1;
  let least = reach;
  places.forEach(([x, y], k) => {
    const apart = Math.hypot(x - to[0], y - to[1]);
    if (apart > least) return;
    least = apart;
    found = k;
  });
  return found;
}

const ways: Record<string, Pair> = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };

/** How far a key moves what is in hand [mm]: 0.1, with Shift 1. Undefined: none of its keys. */
export function nudge(event: Pick<KeyboardEvent, 'key' | 'shiftKey' | 'ctrlKey' | 'metaKey' | 'altKey'>): Pair | undefined {
  const way = event.ctrlKey || event.metaKey || event.altKey ? undefined : ways[event.key];
  if (way === undefined) return undefined;
  const step = event.shiftKey ? 1 : 0.1;
  return [way[0] * step, way[1] * step];
}

/** Pixels to the millimetre: as the program found them, else as if the square filled three quarters of the photo. */
export function pixelsPerMm(scale: number, { width, height }: Size): number {
  return scale > 0 ? scale : (0.75 * Math.min(width, height)) / 120;
}

/** Four corners to begin with where the square was not found: to be drawn to their places. */
export function freshCorners({ width, height }: Size): Pair[] {
  const half = 0.35 * Math.min(width, height);
  const [x, y] = [width / 2, height / 2];
  return [[x - half, y - half], [x + half, y - half], [x + half, y + half], [x - half, y + half]];
}

/** The same corners with the roof at the next side, clockwise. */
export function turned(corners: readonly Pair[]): Pair[] {
  return corners.map((_, k) => corners[(k + 1) % corners.length]!);
}

/** Drawn as a line through places. */
export function drawn(places: readonly Pair[], closed = true): string {
  return places.length === 0 ? '' : `M${places.map(([x, y]) => `${x.toFixed(1)} ${y.toFixed(1)}`).join('L')}${closed ? 'Z' : ''}`;
}

/** Middle of places; of none the middle of the photo. */
export function middle(places: readonly Pair[], { width, height }: Size): Pair {
  if (places.length === 0) return [width / 2, height / 2];
  const sum = places.reduce<[number, number]>(([x, y], one) => [x + one[0], y + one[1]], [0, 0]);
  return [sum[0] / places.length, sum[1] / places.length];
}
