import type { Check, Reading } from '@breakbook/lab';

/**
 * What the checks propose: a failed check proposes "invalid"; a flag, or a check that could not be made, asks for a look.
 * People decide, and they decide without seeing bounds.
 */
export function proposedValidity(checks: readonly Check[], flags: number): Reading['proposedValidity'] {
  if (checks.some(({ outcome }) => outcome === 'fail')) return 'invalid';
  return flags > 0 || checks.some(({ outcome }) => outcome !== 'pass') ? 'needs a look' : 'valid';
}
