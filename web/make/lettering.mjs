// The drawn lettering as a font, made from the same table of pen strokes that the program's sheets are lettered with
// (src/draw/lettering_table.cpp): strokes are outlined with round ends, lines stay lines, arcs stay arcs.
// Writes src/made/lettering_400.woff2, lettering_700.woff2 and lettering.ts, the advances that drawings are laid out by.

import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { woff2 } from './font.mjs';

const source = fileURLToPath(new URL('../../src/draw/lettering_table.cpp', import.meta.url));
const to = fileURLToPath(new URL('../src/made/', import.meta.url));

const grid = 70; // font units of one step of the grid; a capital is 10 steps high
const gap = 2.4; // between two letters, on the grid
const rise = 3; // accents stand so much higher over capitals
const weights = { 400: 0.84, 700: 1.16 }; // breadth of the pen on the grid

/** Code point of a C++ character literal. */
function code(literal) {
  if (/^\\u/.test(literal)) return parseInt(literal.slice(2), 16);
  return literal.replace(/^\\(?=.)/, '').codePointAt(0);
}

/** Tables of the source: letters and accents {code, width, pen}, accented {code, letter, accent}. */
export function readTable(text) {
  const drawn = (part) =>
    [...part.matchAll(/\{U'(\\?.[0-9A-Fa-f]*)',\s*([\d.]+),\s*"([^"]*)"\}/gu)].map((m) => ({ code: code(m[1]), width: Number(m[2]), pen: m[3] }));
  const [, letters = '', accents = '', accented = ''] = text.split(/constexpr \w+ \w+\[\] = \{/);
  const composed = [...accented.matchAll(/\{U'(.)', U'(.)', 0x([0-9A-F]+)\}/gu)].map((m) => ({ code: code(m[1]), letter: code(m[2]), accent: parseInt(m[3], 16) }));
  return { letters: drawn(letters), accents: drawn(accents), accented: composed };
}

/** Strokes of a pen text: lists of {from, to, bulge}; bulge is positive counter-clockwise. */
export function strokes(pen, dx = 0, dy = 0) {
  const words = pen.split(/\s+/).filter((word) => word !== '');
  const quarter = Math.tan(Math.PI / 8);
  const out = [];
  let at;
  let next = 0;
  const number = () => Number(words[next++]);
  while (next < words.length) {
    const command = words[next++];
    const bend = { h: 1, H: -1, q: quarter, Q: -quarter }[command] ?? (command === 'a' ? number() : 0);
    const point = [number() + dx, number() + dy];
    if (command === 'm') out.push([]);
    else out.at(-1).push({ from: at, to: point, bulge: -bend });
    at = point;
  }
  return out.filter((stroke) => stroke.length > 0);
}

/** Centre, radius, first angle and sweep of an arc; undefined for a line. */
function arc({ from, to, bulge }) {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  if (Math.abs(bulge) < 1e-9 || Math.hypot(dx, dy) < 1e-9) return undefined;
  const h = (1 - bulge * bulge) / (4 * bulge);
  const centre = [(from[0] + to[0]) / 2 - dy * h, (from[1] + to[1]) / 2 + dx * h];
  return { centre, radius: Math.hypot(from[0] - centre[0], from[1] - centre[1]), start: Math.atan2(from[1] - centre[1], from[0] - centre[0]), sweep: 4 * Math.atan(bulge) };
}

/** Direction [rad] in which a piece leaves its first point and reaches its last. */
function headings(piece) {
  const round = arc(piece);
  if (round === undefined) {
    const heading = Math.atan2(piece.to[1] - piece.from[1], piece.to[0] - piece.from[0]);
    return [heading, heading];
  }
  const turn = (Math.sign(round.sweep) * Math.PI) / 2;
  return [round.start + turn, round.start + round.sweep + turn];
}

const polar = (centre, radius, angle) => [centre[0] + radius * Math.cos(angle), centre[1] + radius * Math.sin(angle)];

/** Appends an arc as quadratics: control points, the points between them are implied. */
function addArc(points, centre, radius, start, sweep) {
  const pieces = Math.max(1, Math.ceil(Math.abs(sweep) / (Math.PI / 4) - 1e-9));
  const step = sweep / pieces;
  for (let i = 0; i < pieces; ++i) points.push({ at: polar(centre, radius / Math.cos(step / 2), start + (i + 0.5) * step), on: false });
  points.push({ at: polar(centre, radius, start + sweep), on: true });
}

const small = (angle) => Math.atan2(Math.sin(angle), Math.cos(angle));

/** Turns round a vertex on the left side: a round of the pen outside, through the vertex inside. */
function addJoin(points, vertex, before, after, half) {
  const turn = small(after - before);
  if (Math.abs(turn) < 1e-3) return;
  if (turn < 0) return addArc(points, vertex, half, before + Math.PI / 2, turn);
  points.push({ at: vertex, on: true }, { at: polar(vertex, half, after + Math.PI / 2), on: true });
}

/** The left side of a piece, at `half` from it. */
function addSide(points, piece, half) {
  const round = arc(piece);
  if (round !== undefined) return addArc(points, round.centre, Math.max(0.02, round.radius - Math.sign(round.sweep) * half), round.start, round.sweep);
  points.push({ at: polar(piece.to, half, headings(piece)[1] + Math.PI / 2), on: true });
}

const back = (stroke) => stroke.map(({ from, to: end, bulge }) => ({ from: end, to: from, bulge: -bulge })).reverse();

/** Left side of a whole stroke from its first point on; `closed`: with the turn at its end. */
function side(stroke, half, closed) {
  const points = [{ at: polar(stroke[0].from, half, headings(stroke[0])[0] + Math.PI / 2), on: true }];
  stroke.forEach((piece, i) => {
    addSide(points, piece, half);
    const next = stroke[i + 1] ?? (closed ? stroke[0] : undefined);
    if (next !== undefined) addJoin(points, piece.to, headings(piece)[1], headings(next)[0], half);
  });
  return points;
}

/** Contours, all clockwise round metal, of one stroke drawn with a round pen. */
export function outline(stroke, breadth) {
  const half = breadth / 2;
  const [first, last] = [stroke[0], stroke.at(-1)];
  const closed = Math.hypot(first.from[0] - last.to[0], first.from[1] - last.to[1]) < 1e-6;
  if (closed) return [side(stroke, half, true), side(back(stroke), half, true)];
  const points = side(stroke, half, false);
  addArc(points, last.to, half, headings(last)[1] + Math.PI / 2, -Math.PI);
  points.push(...side(back(stroke), half, false).slice(1));
  addArc(points, first.from, half, headings(first)[0] - Math.PI / 2, -Math.PI);
  return [points];
}

const units = (contour) => {
  const whole = contour.map(({ at, on }) => ({ x: Math.round(at[0] * grid), y: Math.round(at[1] * grid), on }));
  const kept = whole.filter((point, i) => !(i > 0 && point.on && whole[i - 1].on && point.x === whole[i - 1].x && point.y === whole[i - 1].y));
  const [first, last] = [kept[0], kept.at(-1)];
  return kept.length > 1 && last.on && first.x === last.x && first.y === last.y ? kept.slice(0, -1) : kept;
};

function glyph(width, drawn, breadth) {
  const contours = drawn.flatMap((stroke) => outline(stroke.map(({ from, to: end, bulge }) => ({ from: [from[0] + gap / 2, from[1]], to: [end[0] + gap / 2, end[1]], bulge })), breadth));
  return { advance: Math.round((width + gap) * grid), contours: contours.map(units) };
}

/** Glyphs of the whole table in one weight: [{code, advance, contours}]. */
export function glyphs(table, breadth) {
  const letter = new Map(table.letters.map((one) => [one.code, one]));
  const accent = new Map(table.accents.map((one) => [one.code, one]));
  const plain = table.letters.map((one) => ({ code: one.code, ...glyph(one.width, strokes(one.pen), breadth) }));
  const composed = table.accented.map((one) => {
    const under = letter.get(one.letter);
    const below = one.accent === 0x327 || one.accent === 0x328;
    const tall = (one.letter < 97 || one.letter === 100) && !below;
    const drawn = [...strokes(under.pen), ...strokes(accent.get(one.accent).pen, under.width / 2, tall ? rise : 0)];
    return { code: one.code, ...glyph(under.width, drawn, breadth) };
  });
  return [...plain, ...composed].sort((a, b) => a.code - b.code);
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const table = readTable(readFileSync(source, 'utf8'));
  mkdirSync(to, { recursive: true });
  const box = glyph(4.4, strokes('m 0 0 l 0 10 l 4.4 10 l 4.4 0 l 0 0'), weights[400]);
  for (const [weight, breadth] of Object.entries(weights))
    writeFileSync(`${to}lettering_${weight}.woff2`, woff2({ family: 'Portwright Lettering', weight: Number(weight), unknown: box, glyphs: glyphs(table, breadth) }));
  const advances = Object.fromEntries(glyphs(table, weights[400]).map((one) => [String.fromCodePoint(one.code), one.advance / 1000]));
  writeFileSync(`${to}lettering.ts`, `// Made from src/draw/lettering_table.cpp: advance of each letter [em].\n\nexport const advances: Record<string, number> = ${JSON.stringify(advances)};\n`);
}
