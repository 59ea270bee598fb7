import { expect, it } from 'vitest';
import { afterOf } from './after-of.js';
import type { MeasurementDraft } from './draft.js';

const row = (of: string, place: string): MeasurementDraft => ({
  id: `${of} ${place}`,
  of,
  place,
  value: '0.22',
  unit: 'mm',
  instrument: 'dial gauge',
  givenBy: '',
  passage: '',
  at: '2026-11-12T09:15:00',
});
const NAMES = { runOutBefore: 'length', runOutAfter: 'length', widthBefore: 'length' };

it('asks after the run for each place read before it, its value open, and for none twice', () => {
  const rows = [row('runOutBefore', '0°'), row('runOutBefore', '45°'), row('runOutAfter', ' 45°'), row('mass', '')];
  expect(afterOf(rows, NAMES, '2026-11-12T10:38:00')).toEqual([
    { ...row('runOutAfter', '0°'), id: expect.any(String), value: '', at: '2026-11-12T10:38:00' },
  ]);
});

it('asks for nothing the method does not know', () => {
  expect(afterOf([row('widthBefore', '')], NAMES, '')).toEqual([]);
});
