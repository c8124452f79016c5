// What goes wrong between the page and the program.

import type { Trouble } from '../made/error';

/** A problem document (RFC 9457) as the program sends it. */
export interface Problem {
  type: string;
  title: string;
  status: number;
  detail: string;
  errors: Trouble[];
  /** of a conflict: what this page held, and what the book has now */
  mine?: string | null;
  theirs?: string | null;
  revision?: string;
}

/** Whether the book itself cannot be read: damaged, gone, or of a newer program. */
export function isBroken(problem: Problem): boolean {
  return /^urn:portwright:(damaged|newer)$/.test(problem.type);
}

/** The program answered that it could not. */
export class ProblemError extends Error {
  readonly problem: Problem;

  constructor(problem: Problem) {
    super(problem.detail || problem.title);
    this.name = 'ProblemError';
    this.problem = problem;
  }

  get status(): number {
    return this.problem.status;
  }

  /** Two hands changed the same field. */
  get conflict(): boolean {
    return this.status === 409 && this.problem.errors.some((one) => one.code === 'conflict');
  }

  /** What would mend it, where the program knows. */
  get hint(): string {
    return this.problem.errors.find((one) => one.hint !== '')?.hint ?? '';
  }
}

/** The program did not answer: it has ended, or the network is away. */
export class Unreachable extends Error {
  constructor() {
    super('The program does not answer. What is typed stays here until it does.');
    this.name = 'Unreachable';
  }
}

/** Reads a problem out of any answer, also one that is no problem document. */
export function problemOf(status: number, text: string): Problem {
  let said: Partial<Problem> = {};
  try {
    const value: unknown = JSON.parse(text);
    if (typeof value === 'object' && value !== null) said = value as Partial<Problem>;
  } catch {
    said = {};
  }
  return {
    ...said,
    type: said.type ?? 'about:blank',
    title: said.title ?? `Answer ${status}`,
    status,
    detail: said.detail ?? '',
    errors: Array.isArray(said.errors) ? said.errors : [],
  };
}

/** One sentence for a person about anything that was thrown. */
export function sayProblem(thrown: unknown): string {
  if (thrown instanceof ProblemError) {
    const first = thrown.problem.errors[0];
    return first !== undefined ? first.message : thrown.message;
  }
  return thrown instanceof Error ? thrown.message : String(thrown);
}
