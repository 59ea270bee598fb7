import { describe, expect, it } from 'vitest';
import { clockIn, instantOf } from './zoned.js';

// Western European time is UTC, its summer time UTC+1, from 01:00 UTC of the last Sunday of March to 01:00 UTC of the
// last Sunday of October (directive 2000/84/EC, articles 2 and 3); in 2026 those are 29 March and 25 October.
const LISBON = 'Europe/Lisbon';

describe('instantOf', () => {
  it.each([
    ['2026-01-15T09:30:00', '2026-01-15T09:30:00.000Z'],
    ['2026-09-28T07:50:00', '2026-09-28T06:50:00.000Z'],
    ['2026-09-28T07:50', '2026-09-28T06:50:00.000Z'],
    // Comes twice; the first is still summer time.
    ['2026-10-25T01:30:00', '2026-10-25T00:30:00.000Z'],
    ['2026-10-25T02:30:00', '2026-10-25T02:30:00.000Z'],
  ])('reads %s on a clock in Lisbon as %s', (clock, instant) => {
    expect(instantOf(LISBON, clock)).toBe(instant);
  });

  it('knows the hour that is left out in spring', () => {
    expect(instantOf(LISBON, '2026-03-29T01:30:00')).toBeUndefined();
  });

  it.each(['', 'tomorrow', '2026-13-40T00:00:00'])('does not read %j', (clock) => {
    expect(instantOf(LISBON, clock)).toBeUndefined();
  });
});

it('shows the clock of a zone', () => {
  expect(clockIn(LISBON, '2026-09-28T06:50:00Z')).toBe('2026-09-28T07:50:00');
  expect(clockIn(LISBON, '2026-01-15T00:00:00Z')).toBe('2026-01-15T00:00:00');
});
