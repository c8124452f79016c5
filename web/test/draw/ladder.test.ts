import { describe, expect, it } from 'vitest';

import { ladderAxis, ladderFrame, ladderRows, ladderTicks, rowsOf, rpmX, rungSentence, tickSpeeds, unrated } from '../../src/draw/ladder';
import { textWidth } from '../../src/draw/lettering';
import { loadPanels, thrustSentence } from '../../src/draw/loads';
import type { RevsAnswer } from '../../src/made/revs';
import { read } from './samples';

const answers = { stock: read('revs') as RevsAnswer, cut: read('revs.cut') as RevsAnswer };
const widths = [288, 328, 620, 846];

describe('the ladder of speeds', () => {
  it('holds every speed with its range on one axis that ends on round numbers', () => {
    for (const { rungs } of Object.values(answers))
      for (const width of widths) {
        const speeds = tickSpeeds(rungs);
        const frame = ladderFrame(rungs, speeds, width);
        for (const row of rowsOf(rungs))
          for (const speed of [row.free, row.cut, row.stock_free, row.stock_cut])
            for (const rpm of speed === null ? [] : [speed.rpm, speed.low ?? speed.rpm, speed.high ?? speed.rpm]) {
              expect(rpmX(frame, rpm)).toBeGreaterThanOrEqual(frame.left);
              expect(rpmX(frame, rpm)).toBeLessThanOrEqual(frame.right);
            }
        expect(frame.from % 500).toBe(0);
        expect(frame.to % 500).toBe(0);
        expect(ladderAxis(frame).length).toBeGreaterThan(1);
      }
  });

  it('gives a row to limits that have a speed, and a finger room on each', () => {
    const { rungs } = answers.cut;
    for (const width of widths) {
      const frame = ladderFrame(rungs, tickSpeeds(rungs), width);
      const rows = ladderRows(frame, rungs);
      expect(rows.map((row) => row.rung.id)).toEqual(['big_end.life', 'ring.1.flutter', 'piston_speed', 'big_end.load', 'piston_speed_most']);
      for (const row of rows) expect(row.height).toBeGreaterThanOrEqual(48);
      expect(rows.filter((row) => row.hard).map((row) => row.rung.id)).toEqual(['big_end.load', 'piston_speed_most']);
    }
  });

  it('names speeds as read once each, and the one that was asked beside them', () => {
    const { rungs } = answers.stock;
    expect(tickSpeeds(rungs).map((one) => one.text)).toEqual(['in the cut', 'without load', 'limiter']);
    expect(tickSpeeds(rungs, [{ rpm: 9500, text: 'asked' }, { rpm: 13500, text: 'asked' }]).map((one) => `${one.text} ${one.rpm}`)).toEqual(['in the cut 8500', 'asked 9500', 'without load 12500', 'limiter 13500']);
    for (const width of widths) {
      const frame = ladderFrame(rungs, tickSpeeds(rungs), width);
      for (const line of ladderTicks(frame, tickSpeeds(rungs))) {
        expect(line.textX - textWidth(line.text, 14) / 2).toBeGreaterThanOrEqual(0);
        expect(line.textX + textWidth(line.text, 14) / 2).toBeLessThanOrEqual(width);
        expect(line.y).toBeLessThan(frame.top);
      }
    }
  });

  it('keeps the words of every mark inside the drawing, clear of its own range', () => {
    for (const { rungs } of Object.values(answers))
      for (const width of widths)
        for (const row of ladderRows(ladderFrame(rungs, tickSpeeds(rungs), width), rungs))
          for (const mark of row.marks) {
            const wide = textWidth(mark.text, 14);
            const [from, to] = mark.anchor === 'start' ? [mark.textX, mark.textX + wide] : [mark.textX - wide, mark.textX];
            expect(from, `${row.rung.id} ${mark.of} at ${width}`).toBeGreaterThanOrEqual(0);
            expect(to, `${row.rung.id} ${mark.of} at ${width}`).toBeLessThanOrEqual(width);
            expect(from >= mark.to || to <= mark.from).toBe(true);
          }
  });

  it('marks as changed only what the cuts moved', () => {
    const rows = ladderRows(ladderFrame(answers.cut.rungs, [], 846), answers.cut.rungs);
    const changed = rows.flatMap((row) => row.marks.filter((mark) => mark.changed).map((mark) => `${row.rung.id} ${mark.of}`));
    expect(changed).toEqual(['big_end.life cut', 'big_end.load cut']);
    for (const mark of rows.flatMap((row) => row.marks)) expect(mark.stock !== undefined).toBe(mark.changed);
    const stock = ladderRows(ladderFrame(answers.stock.rungs, [], 846), answers.stock.rungs);
    expect(stock.flatMap((row) => row.marks).some((mark) => mark.changed)).toBe(false);
  });

  it('knows which ratings are missing under the ceiling', () => {
    expect(unrated(answers.cut.rungs)).toEqual(['bottom_end.small_end.rating', 'bottom_end.main.rating']);
    expect(unrated(answers.cut.rungs.filter((rung) => rung.waits_for === ''))).toEqual([]);
  });

  it('says a rung in words', () => {
    const load = answers.cut.rungs.find((rung) => rung.id === 'big_end.load')!;
    expect(rungSentence(load)).toMatch(/^Big end, static rating reached, hard limit: free 17.750 rpm \(15.700 to 19.600\); in the cut 19.420 rpm \(17.500 to 21.200\), stock 19.310 rpm\.$/);
    const main = answers.cut.rungs.find((rung) => rung.id === 'main.load')!;
    expect(rungSentence(main)).toBe('Main bearing, static rating reached, hard limit: not told yet.');
  });
});

describe('loads over the turn', () => {
  it('puts thrust over the wall that takes it, then what pins and bearings bear', () => {
    const panels = loadPanels(answers.cut.series);
    expect(panels.map((panel) => `${panel.head.split(',')[0]}, ${panel.unit}`)).toEqual(['side thrust, N', 'wall left under the skirt, %', 'load, N', 'skirt on the wall left, MPa', 'rod, N', 'main bearings together, N']);
    expect(panels[2]!.series.map((one) => one.label)).toEqual(['big end', 'small end', 'big end free']);
    expect(loadPanels([])).toEqual([]);
  });

  it('says what stands under the crank', () => {
    expect(thrustSentence(answers.cut.series, 109)).toBe("At 109\u00b0 after TDC the piston leans 391 N toward the power stroke's side, its pin 26 mm down; the windows leave 100 % of the wall there.");
    expect(thrustSentence(answers.cut.series, 240)).toMatch(/toward the other side/);
    expect(thrustSentence(answers.cut.series, 0)).toMatch(/^At TDC the piston leans on neither side/);
    expect(thrustSentence([], 0)).toBe('');
  });
});
