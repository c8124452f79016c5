// Writes a TrueType font in a WOFF2 wrapping. Tables as the OpenType specification 1.9 has them, the wrapping as
// W3C's WOFF File Format 2.0 has it, with its null transforms.

import { brotliCompressSync, constants } from 'node:zlib';

const u16 = (value) => [(value >> 8) & 255, value & 255];
const u32 = (value) => [(value >>> 24) & 255, (value >>> 16) & 255, (value >>> 8) & 255, value & 255];
const padded = (bytes) => [...bytes, ...Array((4 - (bytes.length % 4)) % 4).fill(0)];

function box(contours) {
  const points = contours.flat();
  if (points.length === 0) return [0, 0, 0, 0];
  const xs = points.map((point) => point.x);
  const ys = points.map((point) => point.y);
  return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
}

/** Bytes of one coordinate and its two flag bits. */
function step(delta, short, same) {
  if (delta === 0) return { flag: same, bytes: [] };
  if (Math.abs(delta) < 256) return { flag: short | (delta > 0 ? same : 0), bytes: [Math.abs(delta)] };
  return { flag: 0, bytes: u16(delta) };
}

/** A simple glyph: ends of contours, flags, steps. */
function simple(contours) {
  if (contours.length === 0) return [];
  const points = contours.flat();
  const [flags, xs, ys, ends] = [[], [], [], []];
  let last = { x: 0, y: 0 };
  points.forEach((point, i) => {
    const x = step(point.x - last.x, 2, 16);
    const y = step(point.y - last.y, 4, 32);
    flags.push((point.on ? 1 : 0) | x.flag | y.flag | (i === 0 ? 64 : 0)); // 64: strokes overlap
    xs.push(...x.bytes);
    ys.push(...y.bytes);
    last = point;
  });
  contours.reduce((sum, contour) => (ends.push(sum + contour.length - 1), sum + contour.length), 0);
  return padded([...u16(contours.length), ...box(contours).flatMap(u16), ...ends.flatMap(u16), 0, 0, ...flags, ...xs, ...ys]);
}

/** Character map, format 4: runs of code points that stand for runs of glyphs. */
function cmap(codes) {
  const runs = [];
  codes.forEach((code, i) => {
    const run = runs.at(-1);
    if (run !== undefined && code === run.last + 1) run.last = code;
    else runs.push({ first: code, last: code, glyph: i + 1 });
  });
  runs.push({ first: 0xffff, last: 0xffff, glyph: 0x10000 }); // its step is 1: the unknown glyph
  const power = 2 ** Math.floor(Math.log2(runs.length));
  const body = [
    ...u16(runs.length * 2), ...u16(power * 2), ...u16(Math.log2(power)), ...u16((runs.length - power) * 2),
    ...runs.flatMap((run) => u16(run.last)), 0, 0,
    ...runs.flatMap((run) => u16(run.first)),
    ...runs.flatMap((run) => u16((run.glyph - run.first) & 0xffff)),
    ...runs.flatMap(() => [0, 0]),
  ];
  return [0, 0, 0, 1, ...u16(3), ...u16(1), ...u32(12), ...u16(4), ...u16(body.length + 6), 0, 0, ...body];
}

function names(family, weight) {
  const style = weight >= 600 ? 'Bold' : 'Regular';
  const texts = { 1: family, 2: style, 3: `${family} ${weight}`, 4: `${family} ${style}`, 6: `${family.replace(/ /g, '')}-${style}` };
  const records = [];
  const letters = [];
  for (const [id, text] of Object.entries(texts)) {
    const bytes = [...text].flatMap((letter) => u16(letter.charCodeAt(0)));
    records.push(...u16(3), ...u16(1), ...u16(0x409), ...u16(Number(id)), ...u16(bytes.length), ...u16(letters.length));
    letters.push(...bytes);
  }
  return [0, 0, ...u16(records.length / 12), ...u16(6 + records.length), ...records, ...letters];
}

const ascent = 960;
const descent = -260;

function os2(weight, codes, width) {
  return [
    ...u16(4), ...u16(width), ...u16(weight), ...u16(5), 0, 0, ...Array(20).fill(0), 0, 0, ...Array(10).fill(0), ...Array(16).fill(0),
    ...[...'PWRT'].map((letter) => letter.charCodeAt(0)), ...u16(weight >= 600 ? 0x20 : 0x40), ...u16(codes[0]), ...u16(codes.at(-1)),
    ...u16(ascent), ...u16(descent), 0, 0, ...u16(ascent), ...u16(-descent), ...Array(8).fill(0), ...u16(490), ...u16(700), 0, 0, ...u16(32), ...u16(1),
  ];
}

/** Tables of the font by tag. */
export function tables({ family, weight, unknown, glyphs }) {
  const all = [unknown, ...glyphs];
  const codes = glyphs.map((glyph) => glyph.code);
  const drawn = all.map((glyph) => simple(glyph.contours));
  const places = [0];
  for (const bytes of drawn) places.push(places.at(-1) + bytes.length);
  const [left, low, right, high] = box(all.flatMap((glyph) => glyph.contours));
  const widest = Math.max(...all.map((glyph) => glyph.advance));
  const lefts = all.map((glyph) => box(glyph.contours)[0]);
  return {
    'OS/2': os2(weight, codes, Math.round(all.reduce((sum, glyph) => sum + glyph.advance, 0) / all.length)),
    cmap: cmap(codes),
    glyf: drawn.flat(),
    loca: places.flatMap(u32), // follows glyf at once, says the wrapping
    head: [
      ...u32(0x10000), ...u32(0x10000), ...u32(0), ...u32(0x5f0f3cf5), ...u16(0x800 | 3), ...u16(1000), ...Array(16).fill(0), // 0x800: a lossless wrapping
      ...[left, low, right, high].flatMap(u16), ...u16(weight >= 600 ? 1 : 0), ...u16(8), ...u16(2), ...u16(1), 0, 0,
    ],
    hhea: [...u32(0x10000), ...u16(ascent), ...u16(descent), 0, 0, ...u16(widest), ...u16(Math.min(...lefts)), 0, 0, ...u16(right), ...u16(1), 0, 0, 0, 0, ...Array(8).fill(0), 0, 0, ...u16(all.length)],
    hmtx: all.flatMap((glyph, i) => [...u16(glyph.advance), ...u16(lefts[i])]),
    maxp: [...u32(0x10000), ...u16(all.length), ...u16(Math.max(...all.map((glyph) => glyph.contours.flat().length))), ...u16(Math.max(...all.map((glyph) => glyph.contours.length))), 0, 0, 0, 0, ...u16(2), ...Array(16).fill(0)],
    name: names(family, weight),
    post: [...u32(0x30000), ...Array(28).fill(0)],
  };
}

const known = ['cmap', 'head', 'hhea', 'hmtx', 'maxp', 'name', 'OS/2', 'post', 'cvt ', 'fpgm', 'glyf', 'loca'];

/** UIntBase128 of the wrapping. */
function base128(value) {
  const bytes = [value & 127];
  for (let rest = value >>> 7; rest > 0; rest >>>= 7) bytes.unshift((rest & 127) | 128);
  return bytes;
}

/** The font as a file: {family, weight, unknown: glyph, glyphs: [{code, advance, contours: [[{x, y, on}]]}]}. */
export function woff2(font) {
  const made = tables(font);
  const tags = Object.keys(made);
  const directory = tags.flatMap((tag) => [known.indexOf(tag) | (tag === 'glyf' || tag === 'loca' ? 0xc0 : 0), ...base128(made[tag].length)]);
  const body = Buffer.from(tags.flatMap((tag) => made[tag]));
  const packed = brotliCompressSync(body, { params: { [constants.BROTLI_PARAM_QUALITY]: 11, [constants.BROTLI_PARAM_SIZE_HINT]: body.length, [constants.BROTLI_PARAM_MODE]: constants.BROTLI_MODE_FONT } });
  const plain = 12 + tags.length * 16 + tags.reduce((sum, tag) => sum + padded(made[tag]).length, 0);
  const head = 48 + directory.length;
  const whole = Math.ceil((head + packed.length) / 4) * 4;
  const bytes = [
    ...u32(0x774f4632), ...u32(0x10000), ...u32(whole), ...u16(tags.length), 0, 0, ...u32(plain), ...u32(packed.length),
    ...u16(1), 0, 0, ...Array(20).fill(0), ...directory,
  ];
  const out = Buffer.concat([Buffer.from(bytes), packed]);
  return Buffer.concat([out, Buffer.alloc(whole - out.length)]);
}
