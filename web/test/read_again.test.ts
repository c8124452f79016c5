import { describe, expect, it } from 'vitest';

import { fileAfter, holdsAfter, readAgain } from '../src/state/read_again';
import type { FormAnswer } from '../src/wire/asks';
import type { Client } from '../src/wire/client';

const field = (path: string, kind: string, typed: string[], more: object = {}) => ({ path, kind, typed, with: '', setup: '', note: '', errors: [], ...more });
const form = {
  groups: [
    { fields: [field('name', 'words', ['Rowan 55']), field('state', 'words', ['stock']), field('crank.bore', 'reading', ['46 mm'], { with: 'bore gauge' }), field('drive.teeth', 'number', ['7'])] },
    { fields: [field('cylinder.squish.exhaust', 'reading', ['1.0 mm', '1.1 mm']), field('cylinder.plated', 'flag', ['true']), field('muffler.boxes', 'several', ['300 cc', '20 cc'])] },
    { fields: [field('port.exhaust.name', 'words', ['exhaust']), field('port.exhaust.opens', 'reading', ['105 deg']), field('port.exhaust.centre', 'reading', ['0 deg']), field('port.exhaust.duct.length', 'reading', ['40 mm', '41 mm'])] },
    { fields: [field('piston.ring.1.height', 'reading', ['1.5 mm']), field('piston.skirt_intake', 'reading', ['about 37'], { errors: [{ code: 'unreadable' }] })] },
  ],
} as unknown as FormAnswer;

describe('a set of readings after the cut', () => {
  it('takes over what no cut changes, and nothing that is read anew', () => {
    expect(fileAfter(form, 'base -0.3 mm', 'after base -0.3 mm')).toBe(
      [
        'format = "portwright saw 1"',
        'state = "after base -0.3 mm"',
        'name = "Rowan 55"',
        'crank.bore = { value = "46 mm", with = "bore gauge" }',
        'drive.teeth = 7',
        'cylinder.plated = true',
        'muffler.boxes = ["300 cc", "20 cc"]',
        '',
        '[[port]]',
        'name = "exhaust"',
        'centre = "0 deg"',
        'duct.length = ["40 mm", "41 mm"]',
        '',
        '[[piston.ring]]',
        'height = "1.5 mm"',
        '',
      ].join('\n'),
    );
  });

  it('leaves out what its cuts reach', () => {
    for (const [path, cuts] of [['piston.skirt_intake', 'skirt intake -1 mm'], ['port.primary.passage.mouth', 'mouth primary to 2.1 cm2'], ['muffler.outlets', 'muffler outlet 2 cm2']] as const) {
      expect(holdsAfter(path, cuts)).toBe(false);
      expect(holdsAfter(path, 'base -0.3 mm')).toBe(true);
    }
    for (const path of ['port.rear.roof', 'port.rear.twin.opens', 'cylinder.crown_at_tdc', 'readings.in_cut']) expect(holdsAfter(path, '')).toBe(false);
  });

  it('is kept beside the set that is there', async () => {
    const did: unknown[] = [];
    const door = { ask: () => Promise.resolve(form), do: (name: string, what: object) => (did.push([name, what]), Promise.resolve({ added: [{ fields: 8 }] })) };
    expect(await readAgain('x', 'base -0.3 mm', 'shop', door as unknown as Pick<Client, 'ask' | 'do'>)).toBe(8);
    expect(did).toEqual([['add', { text: fileAfter(form, 'base -0.3 mm', 'after base -0.3 mm'), name: 'read again.saw.toml', to: 'x' }]]);
  });
});
