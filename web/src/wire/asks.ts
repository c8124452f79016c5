// Names of the routes and what each answers.

import type { BookBackupAnswer } from '../made/book_backup';
import type { BoreAnswer } from '../made/bore';
import type { EdgeCheck, FormAnswer, FormField } from '../made/form';
import type { StepsAnswer } from '../made/steps';
import type { BookDoneAnswer } from '../made/book_done';
import type { BookAddAnswer } from '../made/book_add';
import type { BookExportAnswer } from '../made/book_export';
import type { BookFindAnswer } from '../made/book_find';
import type { BookJournalAnswer } from '../made/book_journal';
import type { BookListAnswer } from '../made/book_list';
import type { BookShowAnswer } from '../made/book_show';
import type { BookSistersAnswer } from '../made/book_sisters';
import type { BookVerifyAnswer } from '../made/book_verify';
import type { BookWhereAnswer } from '../made/book_where';
import type { CheckAnswer } from '../made/check';
import type { AnotherBrowserAnswer } from '../made/another_browser';
import type { CompareAnswer } from '../made/compare';
import type { EdgeAnswer } from '../made/edge';
import type { JobAnswer } from '../made/job';
import type { NetworkAnswer } from '../made/network';
import type { PlanAnswer } from '../made/plan';
import type { RubbingAnswer } from '../made/rubbing';
import type { StudyAnswer } from '../made/study';
import type { UnitsAnswer } from '../made/units';
import type { WhyAnswer } from '../made/why';
import type { Changed } from './events';

/** What questions are answered with. */
export interface Answers {
  bench: BookListAnswer;
  saw: BookShowAnswer;
  form: FormAnswer;
  study: StudyAnswer;
  plan: PlanAnswer;
  why: WhyAnswer;
  check: CheckAnswer;
  compare: CompareAnswer;
  edge: EdgeAnswer;
  units: UnitsAnswer;
  bore: BoreAnswer;
  steps: StepsAnswer;
  sisters: BookSistersAnswer;
  find: BookFindAnswer;
  journal: BookJournalAnswer;
  where: BookWhereAnswer;
  verify: BookVerifyAnswer;
  job: JobAnswer;
  network: NetworkAnswer;
  rubbing: RubbingAnswer;
}

/** What writes are answered with. */
export interface Done {
  add: BookAddAnswer;
  new: BookDoneAnswer;
  set: BookDoneAnswer;
  note: BookDoneAnswer;
  result: BookDoneAnswer;
  wood: BookDoneAnswer;
  failure: BookDoneAnswer;
  cut: BookDoneAnswer;
  accept: BookDoneAnswer;
  borrow: BookDoneAnswer;
  hide: BookDoneAnswer;
  'bring-back': BookDoneAnswer;
  caption: BookDoneAnswer;
  'hide-photo': BookDoneAnswer;
  rubbing: BookDoneAnswer;
  undo: BookDoneAnswer;
  redo: BookDoneAnswer;
  'own-book': Changed;
  'demo-book': Changed;
  backup: BookBackupAnswer;
  network: NetworkAnswer;
  invite: NetworkAnswer;
  revoke: NetworkAnswer;
  'another-browser': AnotherBrowserAnswer;
  export: BookExportAnswer;
}

export type AskName =
  | 'bench' | 'saw' | 'form' | 'study' | 'why' | 'check' | 'compare' | 'edge' | 'units' | 'bore' | 'steps'
  | 'sisters' | 'find' | 'journal' | 'where' | 'verify' | 'job' | 'network' | 'rubbing' | 'plan';
export type DoName =
  | 'add' | 'new' | 'set' | 'note' | 'result' | 'wood' | 'failure' | 'cut' | 'accept' | 'borrow' | 'hide' | 'bring-back'
  | 'undo' | 'redo' | 'own-book' | 'demo-book' | 'backup' | 'export' | 'network' | 'invite' | 'revoke' | 'another-browser'
  | 'caption' | 'hide-photo' | 'rubbing';
export type RunName = 'curve' | 'traces' | 'airflow' | 'crank' | 'revs' | 'heat' | 'chain' | 'bands' | 'seek';
export type SheetName = 'map' | 'template' | 'cuts' | 'measuring' | 'drawing' | 'qr';

export type { BoreAnswer, EdgeCheck, FormAnswer, FormField, StepsAnswer };
