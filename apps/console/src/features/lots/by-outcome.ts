import { LotOutcome } from '@breakbook/lab';

/** "12: 9 meets the plan, 2 undecided": how many lots there are and how they stand. */
export function byOutcome(lots: readonly { outcome: LotOutcome }[]): string {
  if (lots.length === 0) return '';
  const counts = LotOutcome.options
    .map((outcome) => ({ outcome, n: lots.filter((one) => one.outcome === outcome).length }))
    .filter(({ n }) => n > 0)
    .map(({ outcome, n }) => `${n} ${PLURAL[outcome](n)}`);
  return `${lots.length} in all: ${counts.join(', ')}`;
}

const PLURAL: Record<LotOutcome, (n: number) => string> = {
  'meets the plan': (n) => (n === 1 ? 'meets its plan' : 'meet their plan'),
  'does not meet the plan': (n) => (n === 1 ? 'does not meet its plan' : 'do not meet their plan'),
  undecided: () => 'undecided',
};
