// Shapes of the answers made for the page.

export interface FormField {
  path: string;
  label: string;
  kind: 'reading' | 'several' | 'pairs' | 'number' | 'flag' | 'words' | 'choice';
  dimension: string;
  typical: string;
  how: string;
  drawing: string;
  typed: string[];
  with: string;
  setup: string;
  note: string;
  borrowed_from: string;
  read: string;
  errors: { code: string; message: string; path: string; hint: string; readings: string[] }[];
  choices: string[];
}

export interface FormAnswer {
  groups: { id: string; label: string; fields: FormField[] }[];
  missing: { path: string; label: string; gain: string }[];
  contradictions: unknown[];
  revision: string;
  ports: { name: string; kind: string }[];
}

export type BoreAnswer = Record<string, unknown>;
export type StepsAnswer = Record<string, unknown>;
