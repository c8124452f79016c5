// Small words of the page.

/** What stands where nothing is known. */
export const unknown = '\u2014';

/** "14:02:31" by the clock of this machine. */
export function clock(when: Date): string {
  return [when.getHours(), when.getMinutes(), when.getSeconds()].map((part) => String(part).padStart(2, '0')).join(':');
}

const months = ['Jan', 'Feb', 'March', 'April', 'May', 'June', 'July', 'Aug', 'Sept', 'Oct', 'Nov', 'Dec'];

/** "14 March", with the year when it is another one, from a time of the book. */
export function day(text: string, now: Date = new Date()): string {
  const when = new Date(text);
  if (Number.isNaN(when.getTime())) return text;
  const year = when.getFullYear() === now.getFullYear() ? '' : ` ${when.getFullYear()}`;
  return `${when.getDate()} ${months[when.getMonth()]}${year}`;
}

/** "today 14:02", "14 March". */
export function moment(text: string, now: Date = new Date()): string {
  const when = new Date(text);
  if (Number.isNaN(when.getTime())) return text;
  return when.toDateString() === now.toDateString() ? `today ${clock(when).slice(0, 5)}` : day(text, now);
}

/** A time as cameras note it, "2026:05:03 14:02:11", by the clock that the camera had. */
export function taken(text: string, now: Date = new Date()): string {
  const [, year, month, date, rest] = /^(\d{4}):(\d\d):(\d\d) (\d\d:\d\d:\d\d)/.exec(text) ?? [];
  return year === undefined ? text : moment(`${year}-${month}-${date}T${rest}`, now);
}

/** "1 reading", "31 readings". */
export function count(number: number, one: string, many = `${one}s`): string {
  return `${number} ${number === 1 ? one : many}`;
}
