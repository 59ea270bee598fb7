import type { Calibration } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { dueOf } from './due.js';

const event = (date: string, due: string): Calibration => ({
  calibration: `C-${date}`,
  sensor: 'P1',
  date,
  due,
  unit: 'kPa',
  asFound: { gain: 1, offset: 0 },
  asLeft: { gain: 1, offset: 0 },
  expandedUncertainty: 2,
  k: 2,
  tolerance: 5,
  certificate: 'invented',
  traceableTo: 'invented',
  by: 'invented',
});
const events = [event('2026-03-01', '2027-03-01'), event('2025-03-01', '2026-03-01')];

describe('dueOf', () => {
  // Expected standings follow from the calendar alone.
  it.each([
    ['2026-06-01', 'in date'],
    ['2027-01-30', 'due within 30 days'],
    ['2027-03-01', 'due within 30 days'],
    ['2027-03-02', 'past its due date'],
  ])('on %s the last event decides: %s', (today, standing) => {
    expect(dueOf('P1', events, today)).toMatchObject({ last: { date: '2026-03-01' }, standing });
  });

  it('says so of a sensor without any', () => {
    expect(dueOf('P2', events, '2026-06-01').standing).toBe('never calibrated');
  });
});
