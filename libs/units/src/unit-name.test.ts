import { describe, expect, it } from 'vitest';
import { readUnitName } from './unit-name.js';

describe('readUnitName', () => {
  it('takes a UCUM code of the right kind', () => {
    expect(readUnitName('bar', 'pressure')).toEqual({ unit: 'bar' });
    expect(readUnitName('[psi]', 'pressure')).toEqual({ unit: '[psi]' });
  });

  it.each([
    [undefined, 'pressure', 'unit.missing'],
    ['', 'pressure', 'unit.missing'],
    ['mPa', 'pressure', 'unit.ambiguous'],
    ['KPA', 'pressure', 'unit.ambiguous'],
    ['psig', 'pressure', 'unit.ambiguous'],
    ['C', 'temperature', 'unit.ambiguous'],
    ['F', 'temperature', 'unit.ambiguous'],
    ['N', 'pressure', 'unit.wrong-dimension'],
    ['furlong per fortnight', 'speed', 'unit.unknown'],
  ] as const)('refuses %j for %s as %s', (written, kind, code) => {
    expect(readUnitName(written, kind)).toMatchObject({ problem: { code } });
  });

  it('gives both readings of a doubtful name', () => {
    expect(readUnitName('C', 'temperature')).toMatchObject({
      problem: { expected: expect.stringContaining('coulomb') },
    });
  });
});
