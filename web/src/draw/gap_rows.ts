// The rows of "what is left" of a study.

import type { StudyAnswer } from '../made/study';
import type { GapRow } from './gaps';
import { type State } from './finding_shapes';
import { numberText } from './ticks';

export interface GapSaid extends GapRow {
  label: string;
  unit: string;
  state: State;
  rule: string;
  valueText: string;
  limitText: string;
}

/** Limits on lengths that a figure is held against, the one that is nearest to its limit first. */
export function gapRows(study: StudyAnswer, most = 6): GapSaid[] {
  const figures = new Map(study.figures.map((figure) => [figure.id, figure]));
  const seen = new Set<string>();
  const rows = study.findings.flatMap((finding): GapSaid[] => {
    const figure = figures.get(finding.figure);
    if (finding.limit === null || finding.margin === null || finding.unit !== 'mm' || figure === undefined || seen.has(finding.figure)) return [];
    seen.add(finding.figure);
    const least = Math.abs(finding.value - finding.limit - finding.margin) < 1e-9;
    const row: GapSaid = {
      id: finding.figure,
      rule: finding.rule,
      label: figure.label,
      unit: finding.unit,
      state: finding.state,
      value: finding.value,
      low: figure.low,
      high: figure.high,
      limit: finding.limit,
      side: least ? 'least' : 'most',
      valueText: numberText(finding.value, 2),
      limitText: numberText(finding.limit, 2),
    };
    if (figure.stock !== undefined) row.stock = figure.stock.value;
    return [row];
  });
  const left = (row: GapSaid) => (row.side === 'least' ? row.value - row.limit : row.limit - row.value);
  return rows.sort((a, b) => left(a) - left(b)).slice(0, most);
}

/** A gap in words, for those who do not see it. */
export function gapSentence(row: GapSaid): string {
  const stock = row.stock === undefined || row.stock === null ? '' : `, stock ${numberText(row.stock, 2)}`;
  return `${row.label}: ${row.valueText} ${row.unit}, at ${row.side} ${row.limitText} is asked${stock}.`;
}
