import { readFileSync } from 'node:fs';
import { brotliDecompressSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';

// @ts-expect-error a build script without types
import { glyphs, outline, readTable, strokes } from '../make/lettering.mjs';
// @ts-expect-error a build script without types
import { tables, woff2 } from '../make/font.mjs';

interface Point {
  x: number;
  y: number;
  on: boolean;
}
interface Glyph {
  code: number;
  advance: number;
  contours: Point[][];
}

const table = readTable(readFileSync(new URL('../../src/draw/lettering_table.cpp', import.meta.url), 'utf8'));
const all = glyphs(table, 0.84) as Glyph[];
const glyph = (letter: string) => all.find((one) => one.code === letter.codePointAt(0))!;
const font = { family: 'Test', weight: 400, unknown: all[0], glyphs: all };

/** Twice the area inside a contour; negative when it runs clockwise. */
const area = (points: { x: number; y: number }[]) =>
  points.reduce((sum, a, i) => {
    const b = points[(i + 1) % points.length]!;
    return sum + a.x * b.y - b.x * a.y;
  }, 0);

describe('lettering', () => {
  it('has every letter of the table', () => {
    expect(all.length).toBe(table.letters.length + table.accented.length);
    for (const letter of 'Aaz09.,+\u2212\u00b0\u00bd\u00e4\u00c5') expect(glyph(letter), letter).toBeDefined();
  });

  it('has figures of one width', () => {
    expect(new Set([...'0123456789'].map((digit) => glyph(digit).advance)).size).toBe(1);
  });

  it('draws a stroke as broad as the pen', () => {
    const points = glyph('I').contours.flat();
    const xs = points.map((point) => point.x);
    const ys = points.map((point) => point.y);
    expect(Math.max(...xs) - Math.min(...xs)).toBeCloseTo(0.84 * 70, -0.5);
    expect(Math.max(...ys) - Math.min(...ys)).toBeCloseTo(10.84 * 70, -0.5);
  });

  it('runs round metal one way, so that strokes that cross leave no hole', () => {
    const ring = outline(strokes('m 0 2.5 l 0 7.5 h 5 7.5 l 5 2.5 h 0 2.5')[0], 0.84) as { at: [number, number] }[][];
    const areas = ring.map((contour) => area(contour.map(({ at }) => ({ x: at[0], y: at[1] }))));
    const outer = areas.reduce((a, b) => (Math.abs(a) > Math.abs(b) ? a : b));
    const inner = areas.reduce((a, b) => (Math.abs(a) < Math.abs(b) ? a : b));
    expect(outer).toBeLessThan(0);
    expect(inner).toBeGreaterThan(0);
    for (const letter of 'ILTX') for (const contour of glyph(letter).contours) expect(area(contour), letter).toBeLessThan(0);
  });

  it('packs tables of the length that the format asks for', () => {
    const made = tables(font) as Record<string, number[]>;
    expect(made['head']).toHaveLength(54);
    expect(made['hhea']).toHaveLength(36);
    expect(made['maxp']).toHaveLength(32);
    expect(made['OS/2']).toHaveLength(96);
    expect(made['loca']).toHaveLength(4 * (all.length + 2));
    expect(made['hmtx']).toHaveLength(4 * (all.length + 1));
    const order = Object.keys(made);
    expect(order.indexOf('loca')).toBe(order.indexOf('glyf') + 1);
  });

  it('wraps them so that they come out again', () => {
    const file = woff2(font) as Buffer;
    expect(file.toString('latin1', 0, 4)).toBe('wOF2');
    expect(file.readUInt32BE(8)).toBe(file.length);
    const packed = file.readUInt32BE(20);
    const made = tables(font) as Record<string, number[]>;
    const whole = Object.values(made).reduce((sum, bytes) => sum + bytes.length, 0);
    const heads = [...Array(file.length).keys()].slice(48, 48 + 120);
    const start = heads.find((at) => {
      try {
        return brotliDecompressSync(file.subarray(at, at + packed)).length === whole;
      } catch {
        return false;
      }
    });
    expect(start).toBeDefined();
  });
});
