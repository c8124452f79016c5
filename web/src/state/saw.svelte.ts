// The saw in hand: its name and what stands beside it in the header.

class Saw {
  id = $state('');
  name = $state('');
  /** "skirt intake, as received": said by the screen that knows */
  says = $state('');
}

export const saw = new Saw();
