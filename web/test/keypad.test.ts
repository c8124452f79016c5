import { describe, expect, it } from 'vitest';

import { beside, press, pressUnit, takeApart } from '../src/parts/keypad';

const type = (keys: string[], unit: string, from = '') => keys.reduce((text, key) => press(text, key, unit), from);

describe('keypad', () => {
  it('writes digits before the chosen unit', () => {
    expect(type(['3', '4'], 'thou')).toBe('34 thou');
  });

  it('writes a comma once, with a nought before it when there is none', () => {
    expect(type(['comma', '8', 'comma', '9'], 'mm')).toBe('0,89 mm');
    expect(type(['5', '0', 'comma', '0', '1'], 'mm')).toBe('50,01 mm');
  });

  it('writes a fraction in two presses, whole number or not', () => {
    expect(type(['1', 'fraction', '3', 'fraction', '1', '6'], 'in')).toBe('1 3/16 in');
    expect(type(['3', 'fraction', 'fraction', '8'], 'in')).toBe('3/8 in');
    expect(type(['1', 'comma', '5', 'fraction'], 'in')).toBe('1,5 in');
  });

  it('turns the sign and turns it back', () => {
    expect(type(['1', '4', '0', 'sign'], 'deg')).toBe('-140 deg');
    expect(type(['sign'], 'deg', '-140 deg')).toBe('140 deg');
  });

  it('rubs out digit after digit and then the unit with the last', () => {
    expect(type(['rub out'], 'mm', '50.01 mm')).toBe('50.0 mm');
    expect(type(['rub out', 'rub out'], 'mm', '50 mm')).toBe('');
  });

  it('changes the unit and leaves number and tolerance', () => {
    expect(pressUnit('34 thou', 'mm')).toBe('34 mm');
    expect(pressUnit('103 deg +- 0.5', 'deg')).toBe('103 deg +- 0.5');
  });

  it('leaves a text that is no quantity as it was typed', () => {
    expect(press('about 3 or 4', '5', 'mm')).toBe('about 3 or 4');
    expect(takeApart('about 3 or 4')).toBeUndefined();
    expect(press('about', 'rub out', 'mm')).toBe('abou');
  });

  it('shows the units of the bench and the chosen one', () => {
    expect(beside(['m', 'cm', 'mm', 'um', 'in', 'thou', 'ft'], 'mm')).toEqual(['mm', 'in', 'thou']);
    expect(beside(['m', 'cm', 'mm', 'um', 'in', 'thou', 'ft'], 'cm')).toEqual(['mm', 'in', 'cm']);
    expect(beside(['mm3', 'cm3', 'l', 'm3', 'in3'], 'cc')).toEqual(['cc', 'l', 'mm3']);
    expect(beside(['deg'], 'deg')).toEqual(['deg']);
  });
});
