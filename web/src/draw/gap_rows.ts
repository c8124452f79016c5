// The rows of "what is left" of a study, as the pictures take them.

import type { Gap, StudyAnswer } from '../made/study';
import { bare } from './bore_frame';
import { type State } from './finding_shapes';
import type { GapRow } from './gaps';

export interface GapSaid extends GapRow {
  label: string;
  unit: string;
  state: State;
  letter: string;
  valueText: string;
  limitText: string;
  sentence: string;
}

const left = (row: GapRow) => (row.side.includes('least') ? row.value - row.limit : row.limit - row.value);

/** A gap in words, for those who do not see it. */
function sentence(gap: Gap): string {
  const stock = gap.stock_text === '' ? '' : `, stock ${gap.stock_text}`;
  return `${gap.label}: ${gap.text}, ${gap.side} ${gap.limit_text} is asked${stock}; left: ${gap.left_text}.`;
}

/** Limits on lengths, one a figure, the one that is nearest to its limit first. */
export function gapRows(study: StudyAnswer, most = 6): GapSaid[] {
  const seen = new Set<string>();
  const rows = study.gaps.flatMap((gap): GapSaid[] => {
    if (gap.limit === null || gap.unit !== 'mm' || seen.has(gap.id)) return [];
    seen.add(gap.id);
    return [{ ...gap, limit: gap.limit, valueText: bare(gap.text), limitText: bare(gap.limit_text), sentence: sentence(gap) }];
  });
  return rows.sort((a, b) => left(a) - left(b)).slice(0, most);
}
