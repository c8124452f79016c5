// What a file is, told by its first bytes, before anything of it is sent.

/** The most that the program takes [bytes]. */
export const mostBytes = 24 * 1024 * 1024;

export type PhotoType = 'image/jpeg' | 'image/png';

const begins = (head: Uint8Array, bytes: readonly number[], at = 0) => bytes.every((byte, k) => head[at + k] === byte);
const brands = ['heic', 'heix', 'heim', 'heis', 'hevc', 'hevx', 'mif1', 'msf1', 'avif', 'avis'];

/** JPEG or PNG by what stands in the file, whatever it is called; undefined: neither. */
export function typeOf(head: Uint8Array): PhotoType | undefined {
  if (begins(head, [0xff, 0xd8, 0xff])) return 'image/jpeg';
  if (begins(head, [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a])) return 'image/png';
  return undefined;
}

/** A container that newer phones save: four letters at 4 and its brand at 8. */
function isHeic(head: Uint8Array): boolean {
  const letters = String.fromCharCode(...head.slice(4, 12));
  return letters.startsWith('ftyp') && brands.includes(letters.slice(4));
}

export interface Looked {
  type: PhotoType | undefined;
  /** why it is not sent, in a sentence; empty: it is */
  says: string;
}

/** Looks into a file. */
export async function look(file: Blob): Promise<Looked> {
  const mega = (bytes: number) => Math.round(bytes / 1e6);
  let head: Uint8Array;
  try {
    head = new Uint8Array(await file.slice(0, 16).arrayBuffer());
  } catch {
    return { type: undefined, says: 'This browser cannot read the file any more. Choose it again.' };
  }
  const type = typeOf(head);
  if (isHeic(head)) return { type, says: 'A HEIC picture, which is not read here. Let the camera save JPEG, or hand it on as JPEG.' };
  if (type === undefined) return { type, says: file.size === 0 ? 'The file is empty.' : 'Neither a JPEG nor a PNG picture.' };
  if (file.size > mostBytes) return { type, says: `${mega(file.size)} MB, and a photo may have ${mega(mostBytes)} MB at most. Take it with fewer pixels.` };
  return { type, says: '' };
}
