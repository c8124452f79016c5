// Where the page is: in the query of the address, so that reload, back and a second tab keep it.

export const screens = ['bench', 'readings', 'what-it-is', 'what-if', 'plan', 'breathing', 'stands', 'book', 'photo', 'measure', 'settings'] as const;
export type Screen = (typeof screens)[number];

export interface Where {
  saw: string;
  at: Screen;
  cuts: string;
  /** cuts of a second what-if beside the one in hand */
  other: string;
  rpm: string;
  /** field in hand on the readings, part of the book */
  field: string;
  /** id of the photo that is looked at or measured */
  photo: string;
  /** what is wished, and with what it is planned */
  wish: string;
  gaskets: string;
  step: string;
  chance: string;
  /** number of the way in hand, from 1 */
  way: string;
  /** cuts that are done at the bench, as read, and what was planned for each */
  done: string;
  planned: string;
  /** id of the set of readings that what is done was planned from; the saw may have been read again since */
  set: string;
  /** cuts that a search may turn; so long it may search [s] */
  free: string;
  seconds: string;
}

const unplanned = { wish: '', gaskets: '', step: '', chance: '', way: '', done: '', planned: '', set: '', free: '', seconds: '' };

const nowhere: Where = { saw: '', at: 'bench', cuts: '', other: '', rpm: '', field: '', photo: '', ...unplanned };
const parts = ['saw', 'at', 'cuts', 'other', 'rpm', 'field', 'photo', 'wish', 'gaskets', 'step', 'chance', 'way', 'done', 'planned', 'set', 'free', 'seconds'] as const;

/** Reads a query; a screen of a saw without a saw is the bench. */
export function readPlace(query: string): Where {
  const said = new URLSearchParams(query);
  const at = said.get('at') ?? '';
  const photo = said.get('photo') ?? '';
  const named = (screens as readonly string[]).includes(at) ? (at as Screen) : undefined;
  const known = photo === '' && (named === 'photo' || named === 'measure') ? 'book' : named;
  const saw = said.get('saw') ?? '';
  const alone = known === undefined || known === 'bench' || known === 'settings' || known === 'book';
  return {
    saw,
    at: known !== undefined && (saw !== '' || alone) ? known : saw !== '' ? 'what-it-is' : 'bench',
    cuts: said.get('cuts') ?? '',
    other: said.get('other') ?? '',
    rpm: said.get('rpm') ?? '',
    field: said.get('field') ?? '',
    photo,
    wish: said.get('wish') ?? '',
    gaskets: said.get('gaskets') ?? '',
    step: said.get('step') ?? '',
    chance: said.get('chance') ?? '',
    way: said.get('way') ?? '',
    done: said.get('done') ?? '',
    planned: said.get('planned') ?? '',
    set: said.get('set') ?? '',
    free: said.get('free') ?? '',
    seconds: said.get('seconds') ?? '',
  };
}

/** Another place: what was planned for one saw is none for another. */
export function moved(from: Where, change: Partial<Where>): Where {
  const other = change.saw !== undefined && change.saw !== from.saw;
  return settled({ ...from, ...(other ? unplanned : {}), ...change });
}

/** A photo belongs to the screens that show one; every other place has none. */
function settled(where: Where): Where {
  return where.photo === '' || where.at === 'photo' || where.at === 'measure' ? where : { ...where, photo: '' };
}

/** Writes a query; what is empty or the bench itself is left out. */
export function writePlace(where: Where): string {
  const query = new URLSearchParams();
  for (const part of parts) if (where[part] !== '' && where[part] !== nowhere[part]) query.set(part, where[part]);
  const text = query.toString();
  return text === '' ? '' : `?${text}`;
}

class Place {
  now = $state<Where>({ ...nowhere });

  /** Listens to the address. */
  start(): () => void {
    const read = () => (this.now = readPlace(location.search));
    read();
    addEventListener('popstate', read);
    return () => removeEventListener('popstate', read);
  }

  /** Address of another place, for links. */
  href(change: Partial<Where>): string {
    return `/${writePlace(moved(this.now, change))}`;
  }

  /** Goes there. `replace` leaves no step behind: for what moves under a finger. */
  go(change: Partial<Where>, replace = false): void {
    const next = moved(this.now, change);
    const address = `/${writePlace(next)}`;
    const same = address === location.pathname + location.search;
    this.now = next;
    if (same) return;
    if (replace) history.replaceState(null, '', address);
    else history.pushState(null, '', address);
  }
}

export const place = new Place();
