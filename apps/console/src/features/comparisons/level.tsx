import { COMPARISON_LEVELS, type ComparisonLevel } from '@breakbook/lab';
import { Outcome } from '../../parts/marks/outcome.js';

/** How well it agrees: the letter for lists, and always its words. */
export function Level({ of, large = false }: { of: ComparisonLevel; large?: boolean }) {
  const words = COMPARISON_LEVELS[of];
  return <Outcome word={words} as={`${of}, ${words}`} large={large} />;
}
