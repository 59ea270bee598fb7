import { isNotEvaluated, type Reading } from '@breakbook/lab';
import type { ReadRun } from './run-input.js';

/** One characteristic of a reading, by its name. */
export function named(reading: Reading, name: string) {
  const found = reading.characteristics.find(({ characteristic }) => characteristic === name);
  if (!found) throw new Error(`no ${name}`);
  return found;
}

/** Its number, where it is one. */
export function numberOf(reading: Reading, name: string): number {
  const { value } = named(reading, name);
  if (isNotEvaluated(value) || value.kind === 'between') throw new Error(`${name}: ${JSON.stringify(value)}`);
  return value.value;
}

/** What did not pass, the codes of the flags raised, and what is proposed. */
export function seenIn({ reading }: ReadRun) {
  return {
    checks: reading.checks
      .filter(({ outcome }) => outcome !== 'pass')
      .map(({ check, outcome, passage }) => `${check}${passage === undefined ? '' : ` ${passage}`}: ${outcome}`),
    flags: reading.flags.map(({ code }) => code),
    proposed: reading.proposedValidity,
    reading,
  };
}
