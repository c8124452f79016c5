// Arrow heads 9 long and 3.2 wide, filled; each names where its tip is and which way it points.

const long = 9;
const half = 1.6;

export type Way = 'left' | 'right' | 'up' | 'down';

/** Path of one head. */
export function arrow(x: number, y: number, way: Way): string {
  switch (way) {
    case 'left':
      return `M${x} ${y}l${long} ${-half}v${2 * half}z`;
    case 'right':
      return `M${x} ${y}l${-long} ${-half}v${2 * half}z`;
    case 'up':
      return `M${x} ${y}l${-half} ${long}h${2 * half}z`;
    case 'down':
      return `M${x} ${y}l${-half} ${-long}h${2 * half}z`;
  }
}
