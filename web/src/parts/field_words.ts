// Fields by the words of the trade, where no answer brings its own label.

const groups = new Set(['crank', 'piston', 'cylinder', 'port', 'readings', 'aim', 'carburettor', 'day', 'fuel', 'bottom_end']);

/** "port.exhaust.opens" -> "exhaust opens", "piston.ring.1.below_crown" -> "ring 1 below crown". */
export function fieldWords(path: string): string {
  const parts = path.split('.').filter((part) => part !== '');
  const shown = parts.length > 1 && groups.has(parts[0]!) ? parts.slice(1) : parts;
  return shown.join(' ').replace(/_/g, ' ');
}

/** A line of the journal, or a sentence, with its paths in words. */
export function labelWords(label: string): string {
  return label.replace(/(^|[\s:])([a-z][a-z0-9_]*(?:\.[a-z0-9_]+)+)(?=$|[\s:,;])/g, (_, before: string, path: string) => before + fieldWords(path));
}

/** What mends a gap, as a sentence: "The others agree without exhaust roof; read that again." */
export function mendWords(mend: string): string {
  const said = labelWords(mend);
  return said === '' ? '' : `${said.charAt(0).toUpperCase()}${said.slice(1)}${/[.?!]$/.test(said) ? '' : '.'}`;
}
