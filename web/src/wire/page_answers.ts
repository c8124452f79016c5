// Shapes of the answers made for the page.

import type { Trouble } from '../made/error';

export interface FormField {
  path: string;
  label: string;
  kind: string;
  dimension: string;
  second_dimension: string;
  units: string[];
  typical: string;
  how: string;
  drawing: string;
  number: number;
  typed: string[];
  with: string;
  setup: string;
  note: string;
  borrowed_from: string;
  read: string;
  errors: Trouble[];
  choices: string[];
  instruments: string[];
  seldom: boolean;
}

export interface FormGroup {
  id: string;
  label: string;
  port: string;
  fields: FormField[];
}

export interface EdgeCheck {
  port: string;
  edge: string;
  readings: { path: string; text: string }[];
  agrees: boolean;
  gap_text: string;
  mend: string;
}

export interface FormAnswer {
  saw: { name: string; model: string; casting: string; state: string } | null;
  revision: string;
  groups: FormGroup[];
  missing: { path: string; label: string; gain: string }[];
  checks: EdgeCheck[];
  wheel: string;
  may_add: { what: string; label: string; path: string; value: string }[];
  taken: number;
  asked: number;
}

export interface BoreAnswer {
  around_mm?: number;
  bdc_mm?: number;
  windows: { id: string; kind: string; path: string; x_mm: number; y_mm: number; w_mm: number; h_mm: number }[];
}
export type StepsAnswer = Record<string, unknown>;
