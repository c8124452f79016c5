// How long something still lasts, in words.

/** Seconds that are left of those told at a moment; moments in ms. */
export function soFar(seconds: number, told: number, now: number): number {
  return Math.max(0, seconds - Math.max(0, Math.floor((now - told) / 1000)));
}

/** "11 h 58 min", "4 min", "42 s". Minutes are rounded up: what is said is never over early. */
export function left(seconds: number): string {
  if (seconds < 60) return `${seconds} s`;
  const minutes = Math.ceil(seconds / 60);
  if (minutes < 60) return `${minutes} min`;
  const hours = Math.floor(minutes / 60);
  return minutes % 60 === 0 ? `${hours} h` : `${hours} h ${minutes % 60} min`;
}

/** "4827 1593" */
export const inFours = (digits: string): string => digits.replace(/(.{4})(?=.)/g, '$1 ');
