// SVG path data from millimetres to pixels: one scale both ways, so that arcs stay arcs.

export interface Move {
  scale: number;
  dx: number;
  dy: number;
}

const takes: Record<string, number> = { M: 2, L: 2, H: 1, V: 1, A: 7, Q: 4, C: 6, Z: 0 };

interface Piece {
  command: string;
  values: number[];
}

/** Pieces of a path in absolute commands; throws on anything else. */
export function pieces(path: string): Piece[] {
  const words = path.match(/[A-Za-z]|[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?/g) ?? [];
  const out: Piece[] = [];
  let command = '';
  for (let at = 0; at < words.length; ) {
    const word = words[at]!;
    if (/[A-Za-z]/.test(word)) {
      command = word === 'z' ? 'Z' : word;
      ++at;
    }
    const count = takes[command];
    if (count === undefined) throw new Error(`no absolute path command: ${command}`);
    out.push({ command, values: words.slice(at, at + count).map(Number) });
    at += count;
    if (command === 'M') command = 'L';
  }
  return out;
}

const short = (value: number) => String(Math.round(value * 100) / 100);

function moved({ command, values }: Piece, { scale, dx, dy }: Move): string {
  const x = (value: number) => short(value * scale + dx);
  const y = (value: number) => short(value * scale + dy);
  switch (command) {
    case 'H':
      return `H${x(values[0]!)}`;
    case 'V':
      return `V${y(values[0]!)}`;
    case 'A': {
      const [rx, ry, turn, large, sweep, ex, ey] = values as [number, number, number, number, number, number, number];
      return `A${short(rx * scale)} ${short(ry * scale)} ${turn} ${large} ${sweep} ${x(ex)} ${y(ey)}`;
    }
    default:
      return command + values.map((value, k) => (k % 2 === 0 ? x(value) : y(value))).join(' ');
  }
}

/** A path scaled and moved. */
export function placed(path: string, move: Move): string {
  return pieces(path).map((piece) => moved(piece, move)).join('');
}

/** A chain of points as a path. */
export function chain(points: readonly { x: number; y: number }[], closed = false): string {
  return points.map((p, k) => `${k === 0 ? 'M' : 'L'}${short(p.x)} ${short(p.y)}`).join('') + (closed ? 'Z' : '');
}
