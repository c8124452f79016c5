// The ladder of speeds: one axis of rpm, a row a rung, on it free and in the cut; hard rungs are metal from there on.

import { bare } from './bore_frame';
import { textWidth } from './lettering';
import { spread } from './spread';
import { numberText, roundStep, ticks } from './ticks';

export interface Speed {
  rpm: number;
  low: number | null;
  high: number | null;
  text: string;
  range: string;
}

export interface RungSaid {
  id: string;
  name: string;
  /** hard, note or mark */
  kind: string;
  free: Speed | null;
  cut: Speed | null;
  stock_free: Speed | null;
  stock_cut: Speed | null;
  waits_for: string;
}

export interface LadderFrame {
  width: number;
  height: number;
  left: number;
  right: number;
  /** of the first row, and the axis */
  top: number;
  bottom: number;
  from: number;
  to: number;
  /** names stand over their rows: a narrow screen */
  over: boolean;
}

/** One speed on a row. */
export interface SpeedMark {
  of: 'free' | 'cut';
  x: number;
  y: number;
  /** ends of its range; the same as x where it has none */
  from: number;
  to: number;
  text: string;
  textX: number;
  anchor: 'start' | 'end';
  /** another speed than without the cuts */
  changed: boolean;
  /** x without the cuts, where that is elsewhere */
  stock?: number;
}

export interface LadderRow<R extends RungSaid = RungSaid> {
  rung: R;
  top: number;
  height: number;
  name: { x: number; y: number };
  hard: boolean;
  marks: SpeedMark[];
}

/** A speed as read, through all rows. */
export interface LadderTick {
  x: number;
  textX: number;
  y: number;
  text: string;
}

const lettering = 15;
const small = 14;
const tickRow = 19;
const least = 48; // height of a row: a finger's

const speedsOf = (rung: RungSaid): Speed[] => [rung.free, rung.cut, rung.stock_free, rung.stock_cut].filter((one): one is Speed => one !== null);
const values = (speed: Speed): number[] => [speed.rpm, speed.low ?? speed.rpm, speed.high ?? speed.rpm];

/** Rungs that have a row: limits with a speed. Marks are ticks of the axis, and what waits is told in words. */
export function rowsOf<R extends RungSaid>(rungs: readonly R[]): R[] {
  return rungs.filter((rung) => rung.kind !== 'mark' && (rung.free !== null || rung.cut !== null));
}

/** Speeds as read, and those that were asked for, each once. */
export function tickSpeeds(rungs: readonly RungSaid[], asked: readonly { rpm: number; text: string }[] = []): { rpm: number; text: string }[] {
  const read = rungs.filter((rung) => rung.kind === 'mark').flatMap((rung) => speedsOf(rung).slice(0, 1).map((speed) => ({ rpm: speed.rpm, text: rung.name.replace(/, as read$/, '').toLowerCase() })));
  const other = asked.filter((one) => one.rpm > 0 && !read.some((mark) => Math.abs(mark.rpm - one.rpm) < 1));
  return [...read, ...other].sort((a, b) => a.rpm - b.rpm);
}

/** The frame: its axis holds every speed with its range, and ends on round numbers. */
export function ladderFrame(rungs: readonly RungSaid[], speeds: readonly { rpm: number }[], width: number): LadderFrame {
  const rows = rowsOf(rungs);
  const all = [...rows.flatMap(speedsOf).flatMap(values), ...speeds.map((one) => one.rpm)];
  const low = Math.min(...all);
  const high = Math.max(...all);
  const step = roundStep(Math.max(1000, high - low), 8);
  const over = width < 620;
  const names = Math.max(120, ...rows.map((rung) => textWidth(rung.name, lettering)));
  const left = over ? 12 : Math.min(width * 0.42, names + 22);
  const top = 10 + speeds.length * tickRow;
  const tall = rows.length * (over ? least + 20 : least);
  return { width, height: top + tall + 40, left, right: width - 26, top, bottom: top + tall, from: Math.floor(low / step) * step, to: Math.ceil((high + step * 0.1) / step) * step, over };
}

export const rpmX = (frame: LadderFrame, rpm: number): number => frame.left + ((rpm - frame.from) / (frame.to - frame.from)) * (frame.right - frame.left);

/** Round speeds under the axis. */
export function ladderAxis(frame: LadderFrame): { x: number; text: string }[] {
  return ticks(frame.from, frame.to, frame.right - frame.left < 420 ? 4 : 8).map((rpm) => ({ x: rpmX(frame, rpm), text: numberText(rpm, 0) }));
}

/** Speeds as read, each named in a line of its own over the rows, the lowest at the top. */
export function ladderTicks(frame: LadderFrame, speeds: readonly { rpm: number; text: string }[]): LadderTick[] {
  return speeds.map((speed, k) => {
    const text = `${speed.text} ${numberText(speed.rpm, 0)}`;
    const x = rpmX(frame, speed.rpm);
    const half = textWidth(text, small) / 2;
    const [textX = x] = spread([{ at: x, width: 2 * half }], 0, 2, frame.width - 2);
    return { x, textX, y: 12 + k * tickRow, text };
  });
}

/** Where the words of a mark stand: after its range, else before it; of a hard rung before it, as metal lies beyond. */
function words(frame: LadderFrame, from: number, to: number, text: string, hard: boolean): { textX: number; anchor: 'start' | 'end' } {
  const width = textWidth(text, small);
  const after = { textX: to + 10, anchor: 'start' as const };
  const before = { textX: from - 10, anchor: 'end' as const };
  const fitsBefore = from - 10 - width > (frame.over ? 2 : frame.left - 6);
  const fitsAfter = to + 10 + width < frame.width - 2;
  return hard ? (fitsBefore ? before : after) : fitsAfter ? after : before;
}

function mark(frame: LadderFrame, of: 'free' | 'cut', y: number, now: Speed, stock: Speed | null, hard: boolean): SpeedMark {
  const x = rpmX(frame, now.rpm);
  const from = Math.min(x, rpmX(frame, now.low ?? now.rpm));
  const to = Math.max(x, rpmX(frame, now.high ?? now.rpm));
  const changed = stock !== null && stock.text !== now.text;
  const text = `${bare(now.text)} ${of === 'free' ? 'free' : 'in the cut'}`;
  const out = { of, x, y, from, to, text, changed, ...words(frame, Math.min(from, x - 6), Math.max(to, x + 6), text, hard) };
  return changed ? { ...out, stock: rpmX(frame, stock.rpm) } : out;
}

/** The rows, from the lowest speed down the page. */
export function ladderRows<R extends RungSaid>(frame: LadderFrame, rungs: readonly R[]): LadderRow<R>[] {
  const rows = rowsOf(rungs);
  const height = (frame.bottom - frame.top) / Math.max(1, rows.length);
  const named = frame.over ? 21 : 0;
  return rows.map((rung, k) => {
    const top = frame.top + k * height;
    const hard = rung.kind === 'hard';
    const y = top + named + (height - named) / 2;
    const both = rung.free !== null && rung.cut !== null;
    const marks = [
      ...(rung.free === null ? [] : [mark(frame, 'free', both ? y - 10 : y, rung.free, rung.stock_free, hard)]),
      ...(rung.cut === null ? [] : [mark(frame, 'cut', both ? y + 10 : y, rung.cut, rung.stock_cut, hard)]),
    ];
    return { rung, top, height, name: frame.over ? { x: 2, y: top + 17 } : { x: 0, y: y - 2 }, hard, marks };
  });
}

/** Bearings whose hard limit is not known for want of a rating, by their field: the ceiling may stand lower. */
export function unrated(rungs: readonly RungSaid[]): string[] {
  const fields = rungs.filter((rung) => rung.kind === 'hard').flatMap((rung) => /bottom_end\.\w+\.rating/.exec(rung.waits_for) ?? []);
  return [...new Set(fields)];
}

/** A rung in words: for those who hear the page, and for the table's head. */
export function rungSentence(rung: RungSaid): string {
  const said = (speed: Speed, how: string, stock: Speed | null) =>
    `${how} ${speed.text}${speed.range === '' ? '' : ` (${speed.range})`}${stock === null || stock.text === speed.text ? '' : `, stock ${stock.text}`}`;
  const parts = [rung.free === null ? '' : said(rung.free, 'free', rung.stock_free), rung.cut === null ? '' : said(rung.cut, 'in the cut', rung.stock_cut)].filter((part) => part !== '');
  const kind = rung.kind === 'hard' ? ', hard limit' : rung.kind === 'note' ? ', note' : '';
  return `${rung.name}${kind}: ${parts.length > 0 ? parts.join('; ') : 'not told yet'}.`;
}
