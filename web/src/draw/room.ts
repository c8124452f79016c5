// How much room there is in letters: a screen of 1 280 px with text at 200 % has the room of 640.

/** Width as it would be at the usual size of text [px]. */
export function roomOf(width: number): number {
  const root = typeof document === 'undefined' ? 16 : Number.parseFloat(getComputedStyle(document.documentElement).fontSize);
  return width / (root > 0 ? root / 16 : 1);
}
