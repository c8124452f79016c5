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
  contradictions: {
    port: string;
    edge: string;
    label: string;
    readings: { path: string; text: string }[];
    gap_text: string;
    mend: string;
  }[];
  revision: number;
  ports: { name: string; kind: string }[];
}

export interface BoreAnswer {
  around_mm?: number;
  bdc_mm?: number;
  windows: { id: string; kind: string; path: string; x_mm: number; y_mm: number; w_mm: number; h_mm: number }[];
}
export type StepsAnswer = Record<string, unknown>;
