// Undo and redo of the book, by the keys in the header and by Ctrl+Z.

import type { BookDoneAnswer } from '../made/book_done';
import { fieldWords, labelWords } from '../parts/field_words';
import { client } from '../wire/client';
import { ProblemError, sayProblem } from '../wire/problem';
import { notices } from './notices.svelte';
import { saw } from './saw.svelte';
import { session } from './session.svelte';

/** What an undo put back, in one line: "34 thou again, was 43 thou". */
export function backText(done: BookDoneAnswer): string {
  const fields = (done.action?.changes ?? []).filter((change) => change.path !== '' && change.path !== 'hidden');
  const change = fields[0];
  if (change === undefined) return '';
  const now = change.after ?? '\u2014';
  const was = change.before ?? '\u2014';
  const more = fields.length - 1;
  return `${fieldWords(change.path)}: ${now}, was ${was}${more > 0 ? ` (and ${more} more)` : ''}`;
}

async function step(name: 'undo' | 'redo'): Promise<void> {
  try {
    const done = await client.do(name);
    if (done.action === undefined || done.action === null) {
      notices.say(name === 'undo' ? 'Nothing to undo in this tab.' : 'Nothing to do again.');
      return;
    }
    session.keep(done.action.number);
    notices.say(`${done.name === '' || done.name === saw.name ? '' : `${done.name}: `}${labelWords(done.action.label)}`, backText(done));
  } catch (thrown) {
    const gone = thrown instanceof ProblemError && thrown.status === 404;
    if (gone) notices.say(name === 'undo' ? 'Nothing to undo in this tab.' : 'Nothing to do again.');
    else notices.say(sayProblem(thrown), thrown instanceof ProblemError ? thrown.hint : '', true);
  }
}

export const undo = () => step('undo');
export const redo = () => step('redo');

/** While something is typed and not kept, the browser's own undo holds; everywhere else Ctrl+Z is the book's. */
export function undoKeys(event: KeyboardEvent): void {
  if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
  const target = event.target;
  const typing = target instanceof HTMLInputElement || target instanceof HTMLTextAreaElement;
  if (typing && target.dataset['kept'] !== 'true') return;
  const key = event.key.toLowerCase();
  const back = key === 'z' && !event.shiftKey;
  const again = (key === 'z' && event.shiftKey) || key === 'y';
  if (!back && !again) return;
  event.preventDefault();
  void (back ? undo() : redo());
}
