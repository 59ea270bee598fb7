import { isNotEvaluated, type PooledLots } from '@breakbook/lab';
import { listed } from './counted.js';
import { percent } from './percent.js';

type Found = Omit<PooledLots, 'sentence'>;

/** Which earlier lots stood beside this one, and what came of the declared test. */
export function earlierInWords({ lots, because }: Found): string {
  const named = lots.map(
    ({ lot, n, evaluation }) =>
      `${lot} (${evaluation === undefined ? '' : `evaluation ${evaluation}, `}${n === 0 ? 'no value that can be ranked' : `${n} values`})`,
  );
  return `${lots.length === 0 ? 'There is none' : `Earlier: ${listed(named)}`}; ${because}.`;
}

/** What the test would have missed: lots that it does not tell apart may differ all the same. */
export function powerInWords(power: PooledLots['power']): string {
  if (isNotEvaluated(power)) return `Not evaluated: ${power.notEvaluated.because}.`;
  return `A mean off by ${percent(power.shift)} would be seen with probability ${power.probability.toFixed(2)} (${power.replicates} simulated sets, normal, seed ${power.seed}).`;
}

/** Earlier lots, test and power in one piece. */
export function pooledSentence(found: Found): string {
  return `${earlierInWords(found)} Would a difference that matters have been seen? ${powerInWords(found.power)}`;
}
