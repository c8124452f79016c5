// After the cut the saw is another one: a new set of readings beside the old one. What no cut can have changed is taken
// over as it was typed; edges, heights, chords, squish and chamber are read again.

import type { FormAnswer, FormField } from '../wire/asks';
import { client, type Client } from '../wire/client';

const readAnew = /^(?:readings|day)\.|^port\.[^.]+\.(?:opens|closes|duration|roof|floor|drop|width|corner_roof|corner_floor|roof_slope|roof_arch|bridge|bridge_at|outline|seen|outline_within|twin)\b|^cylinder\.(?:squish|chamber|chamber_filled_to|decompression|crown_at_tdc|crown_above_deck|base_gasket|bowl|spigot_clearance)\b/;

/** Parts that only some cuts reach. */
const reached: readonly [RegExp, RegExp][] = [
  [/\b(?:skirt|crown|dome|piston|window)\b/, /^piston\./],
  [/\b(?:mouth|passage|foot|gasket hole|ledge|lower)\b/, /^port\.[^.]+\.passage\b/],
  [/\b(?:duct|outlet)\b/, /^port\.[^.]+\.duct\b/],
  [/\bmuffler\b/, /^muffler\./],
  [/\bcase\b/, /^case\./],
  [/\b(?:ignition|advance|key)\b/, /^ignition\./],
];

/** Whether a reading holds after these cuts as it was. */
export const holdsAfter = (path: string, cuts: string): boolean => !readAnew.test(path) && !reached.some(([said, of]) => said.test(cuts) && of.test(path));

const quoted = (text: string): string => JSON.stringify(text);
const list = (texts: readonly string[]): string => `[${texts.map(quoted).join(', ')}]`;

function pairs(typed: readonly string[]): string {
  const rows: string[] = [];
  for (let k = 0; k + 1 < typed.length; k += 2) rows.push(list(typed.slice(k, k + 2)));
  return `[${rows.join(', ')}]`;
}

/** What stands in a field, as a saw file has it. */
function value(field: FormField): string {
  const [first = ''] = field.typed;
  if (field.kind === 'flag') return first === 'true' ? 'true' : 'false';
  if (field.kind === 'several') return list(field.typed);
  if (field.kind === 'pairs') return pairs(field.typed);
  if (field.kind === 'number') return /^[-+]?\d+(?:\.\d+)?$/.test(first) ? first : quoted(first);
  const read = field.typed.length > 1 ? list(field.typed) : quoted(first);
  const beside = (['with', 'setup', 'note'] as const).filter((part) => field[part] !== '').map((part) => `, ${part} = ${quoted(field[part])}`);
  return field.kind === 'reading' && beside.length > 0 ? `{ value = ${read}${beside.join('')} }` : read;
}

/** Parts of a saw that there are several of: "port.exhaust", "piston.ring.1". */
const several = /^(port\.[^.]+|(?:piston\.ring|piston\.window|cooling\.fins)\.\d+)\.(.+)$/;

/** A saw file of what holds after the cuts. */
export function fileAfter(form: FormAnswer, cuts: string, state: string): string {
  const top: string[] = [];
  const parts = new Map<string, string[]>();
  for (const field of form.groups.flatMap((group) => group.fields)) {
    if (field.typed.length === 0 || field.errors.length > 0 || field.path === 'state' || !holdsAfter(field.path, cuts)) continue;
    const part = several.exec(field.path);
    if (part === null) top.push(`${field.path} = ${value(field)}`);
    else parts.set(part[1]!, [...(parts.get(part[1]!) ?? []), `${part[2]} = ${value(field)}`]);
  }
  const lines = ['format = "portwright saw 1"', `state = ${quoted(state)}`, ...top];
  for (const [name, own] of parts) lines.push('', `[[${name.replace(/\.[^.]+$/, '')}]]`, ...own);
  return `${lines.join('\n')}\n`;
}

/** Begins a set of readings of the saw after these cuts. Answers how many readings it has already. Throws a problem. */
export async function readAgain(saw: string, cuts: string, units: string, door: Pick<Client, 'ask' | 'do'> = client): Promise<number> {
  const form = await door.ask('form', { saw, units });
  const state = cuts === '' ? 'read again' : `after ${cuts}`;
  const answer = await door.do('add', { text: fileAfter(form, cuts, state), name: 'read again.saw.toml', to: saw });
  return answer.added[0]?.fields ?? 0;
}
