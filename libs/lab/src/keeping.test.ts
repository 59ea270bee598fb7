import { describe, expect, it } from 'vitest';
import { KEEPING_RULES, proposedKeeping, yearsAfter } from './keeping.js';

describe('how long something is kept, as it is proposed', () => {
  it('counts years by the calendar; a 29th of February that is not there is the 28th', () => {
    expect(yearsAfter('2031-07-17', 2)).toBe('2033-07-17');
    expect(yearsAfter('2028-02-29', 1)).toBe('2029-02-28');
    expect(yearsAfter('2028-02-29', 12)).toBe('2040-02-29');
  });

  it.each([
    ['nothing failed', ['drawn at random'], false, KEEPING_RULES.remnants, '2032-07-17'],
    ['something failed', ['drawn at random'], true, KEEPING_RULES.broken, '2033-07-17'],
    ['one is a field return', ['drawn at random', 'field return'], false, KEEPING_RULES.suspect, '2043-07-17'],
    ['one is suspect, and failed', ['suspect'], true, KEEPING_RULES.suspect, '2043-07-17'],
  ] as const)('takes the rule that keeps longest: %s', (_what, origins, failed, rule, remnantsUntil) => {
    expect(proposedKeeping({ from: '2031-07-17', origins, failed })).toEqual({
      recordsUntil: '2043-07-17',
      remnantsUntil,
      rules: [KEEPING_RULES.records, rule],
    });
  });

  it('never proposes to keep records shorter than what is made of them', () => {
    const { records, ...others } = KEEPING_RULES;
    for (const { years } of Object.values(others)) expect(years).toBeLessThanOrEqual(records.years);
  });
});
