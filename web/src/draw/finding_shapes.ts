// Shapes of findings: a tick is held, a ring a note, a triangle a caution, a filled octagon a stop. One letter in the
// shape; the same letter stands on the drawing.

export type State = 'ok' | 'note' | 'caution' | 'stop';

export const words: Record<State, string> = { ok: 'Held', note: 'Note', caution: 'Caution', stop: 'Stop' };

const alphabet = 'ABCDEFGHJKLMNPRSTUVWXYZ'; // without I, O, Q, as on drawings

/** Letter of a finding by its place among those that are not held: A..Z, then AA.. */
export function letterOf(place: number): string {
  const first = Math.floor(place / alphabet.length);
  const last = alphabet[place % alphabet.length]!;
  return first === 0 ? last : (alphabet[first - 1] ?? 'Z') + last;
}

/** Outline of a shape about the origin, 14 from the middle. */
export function outline(state: State): string {
  switch (state) {
    case 'ok':
      return 'M-8 1L-2.5 8L9 -8';
    case 'note':
      return 'M-11.5 0a11.5 11.5 0 1 0 23 0a11.5 11.5 0 1 0 -23 0Z';
    case 'caution':
      return 'M0 -12.5L14 11.5H-14Z';
    case 'stop':
      return 'M-5.4 -13H5.4L13 -5.4V5.4L5.4 13H-5.4L-13 5.4V-5.4Z';
  }
}

/** Where the letter stands in the shape: y of its base line. */
export const letterBase: Record<State, number> = { ok: 0, note: 4.6, caution: 8.4, stop: 4.6 };

export interface Said {
  rule: string;
  figure: string;
  state: State;
  accepted: boolean;
  /** as the program gave it; empty: not given */
  letter?: string;
}

export interface Lettering<T extends Said> {
  finding: T;
  letter: string;
}

/** Letters for all that is not held: the program's, else by the order given (worst first). */
export function lettered<T extends Said>(findings: readonly T[]): Lettering<T>[] {
  return findings.filter((one) => one.state !== 'ok').map((finding, k) => ({ finding, letter: finding.letter || letterOf(k) }));
}
