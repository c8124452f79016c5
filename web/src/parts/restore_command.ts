// What to type in a terminal to get a book back.

/** A word as a shell reads it as one. */
function quoted(word: string): string {
  return /^[\w@%+=:,./-]+$/.test(word) ? word : `'${word.replace(/'/g, `'\\''`)}'`;
}

/** The command that puts a backup in the book's place; a book in the usual place needs no name. */
export function restoreCommand(backup: string, book: string, chosenBy: string): string {
  return `portwright book restore ${quoted(backup)}${chosenBy === 'the usual place' ? '' : ` --book ${quoted(book)}`}`;
}
