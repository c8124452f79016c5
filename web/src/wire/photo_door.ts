// The one thing that is sent as it is and not as JSON: a photo. By XMLHttpRequest, which tells how far it got.

import type { BookDoneAnswer } from '../made/book_done';
import { client, type Client } from './client';
import type { PhotoType } from './photo_file';
import { ProblemError, Unreachable, problemOf } from './problem';

export interface Sent {
  saw: string;
  /** the same when it is tried again: it is kept once */
  token: string;
  type: PhotoType;
}

export type SendPhoto = (file: Blob, what: Sent, told: (share: number) => void) => Promise<BookDoneAnswer>;

/** As much of XMLHttpRequest as is used here. */
export type Request = Pick<XMLHttpRequest, 'open' | 'setRequestHeader' | 'send' | 'getResponseHeader' | 'status' | 'responseText' | 'timeout'> & {
  upload: { onprogress: ((event: ProgressEvent) => void) | null };
  onload: (() => void) | null;
  onerror: (() => void) | null;
  onabort: (() => void) | null;
  ontimeout: (() => void) | null;
};

const patience = 90_000; // the program itself gives up after 60 s

/** Address of a photo of the book: small as a thumbnail, whole as it is kept. */
export const photoAt = (id: string, size: 'small' | 'whole'): string => `/api/photo/${encodeURIComponent(id)}?size=${size}`;

/** How photos go through the door of `client`. Throws ProblemError and Unreachable as every write does. */
export function photoDoor(door: Pick<Client, 'tab' | 'epoch' | 'learn' | 'onLocked'> = client, request: () => Request = () => new XMLHttpRequest() as Request): SendPhoto {
  return (file, what, told) =>
    new Promise((done, fail) => {
      const sending = request();
      const query = new URLSearchParams({ saw: what.saw, token: what.token, client: door.tab });
      sending.open('POST', `/api/do/photo?${query}`);
      sending.setRequestHeader('Content-Type', what.type);
      sending.setRequestHeader('X-Portwright', '1');
      if (door.epoch > 0) sending.setRequestHeader('X-Portwright-Epoch', String(door.epoch));
      sending.timeout = patience;
      sending.upload.onprogress = (event) => event.lengthComputable && event.total > 0 && told(event.loaded / event.total);
      const away = () => fail(new Unreachable());
      sending.onerror = away;
      sending.onabort = away;
      sending.ontimeout = away;
      sending.onload = () => {
        door.learn(Number(sending.getResponseHeader('X-Portwright-Epoch') ?? 0));
        if (sending.status === 200) {
          try {
            done(JSON.parse(sending.responseText) as BookDoneAnswer);
          } catch {
            away(); // half an answer: the token makes the next try safe
          }
          return;
        }
        if (sending.status === 401) door.onLocked();
        fail(new ProblemError(problemOf(sending.status, sending.responseText)));
      };
      sending.send(file);
    });
}
