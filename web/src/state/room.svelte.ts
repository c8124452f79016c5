// How much room there is in letters: a screen of 1 280 px with text twice as large has the room of 640. The layout goes
// by it, not by pixels: the root's `data-under` names the widths that the room is under, for the styles.

const widths = [720, 860, 900, 960, 1040, 1100, 1180] as const;
export type Width = (typeof widths)[number];

/** Width as it would be at the usual size of text [px]. */
export function inLetters(width: number, root: number): number {
  return width / (root > 0 ? root / 16 : 1);
}

/** The widths that a room is under, as the styles ask for them. */
export function underOf(room: number): string {
  return widths.filter((width) => room < width).join(' ');
}

/** How many times larger drawings stand: as large as the text, while a narrow screen still has room for them. */
export function timesDrawn(width: number, root: number): number {
  return Math.max(1, Math.min(root / 16, width / 340));
}

class Room {
  #letters = $state(1280);
  /** Drawings are laid out in letters and stand so many times larger: their width is the room over this. */
  times = $state(1);

  under(width: Width): boolean {
    return this.#letters < width;
  }

  /** Looks now, and whenever the window or the size of its text changes. */
  start(): () => void {
    const look = () => {
      const size = Number.parseFloat(getComputedStyle(document.documentElement).fontSize);
      this.#letters = inLetters(innerWidth, size);
      this.times = timesDrawn(innerWidth, size);
      document.documentElement.dataset['under'] = underOf(this.#letters);
      document.documentElement.style.setProperty('--times', String(this.times));
    };
    look();
    const letter = document.createElement('div');
    letter.className = 'letter-size';
    letter.ariaHidden = 'true';
    document.body.append(letter);
    const watch = new ResizeObserver(look);
    watch.observe(letter);
    addEventListener('resize', look);
    return () => {
      watch.disconnect();
      letter.remove();
      removeEventListener('resize', look);
    };
  }
}

export const room = new Room();
