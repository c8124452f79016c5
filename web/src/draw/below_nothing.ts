// Lengths that come out below nothing, and what that is at the saw. The program says how much; these are its words.

const meanings: [RegExp, string][] = [
  [/^pin\.hole_wall$/, 'less than nothing: the window is wider than the wall beside the pin bore, no wall is left, and the bore comes to stand in the window'],
  [/^wall\.least$/, 'less than nothing: the windows run into each other, no wall is left'],
  [/^ring\.[^.]+\.peg_wall$/, 'less than nothing: no wall is left, the ends of the ring pass over a window'],
  [/^skirt\.cover_exhaust$/, 'less than nothing: no skirt is left over the floor at TDC, exhaust and case are joined for a moment'],
  [/^skirt\.cover_intake$/, 'less than nothing: at BDC the skirt ends above the intake floor'],
  [/^crown\.over_floors$/, 'less than nothing: at BDC the crown edge stands below every floor and hides none of it'],
  [/^crown\.over_intake_roof$/, 'less than nothing: at BDC the crown edge stands below the intake roof, intake and cylinder are joined'],
  [/^squish\.(clearance|working)$/, 'less than nothing: piston and head would meet'],
  [/^spigot\.clearance$/, 'less than nothing: the spigot would meet the case'],
];

/** What a negative length of a figure means; empty for what is not below nothing or speaks for itself. */
export function belowNothing(figure: string, value: number | null): string {
  if (value === null || !(value < 0)) return '';
  return meanings.find(([pattern]) => pattern.test(figure))?.[1] ?? '';
}
