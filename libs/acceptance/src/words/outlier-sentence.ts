import { isNotEvaluated, type OutlierFinding } from '@breakbook/lab';
import { boundInWords, valueInWords } from './numbers.js';
import { percent } from './percent.js';

/** A value far from the others, with what it does to each bound. It stays in the claim whatever is said here. */
export function outlierSentence(found: Omit<OutlierFinding, 'sentence'>, unit: string): string {
  const { run, specimen, value, side, statistic, critical, level, bounds } = found;
  const effects = bounds.map(({ criterion, with: all, without }) =>
    isNotEvaluated(without)
      ? `criterion ${criterion}: bound ${boundInWords(all, unit)} with it, and none without it, since ${without.notEvaluated.because}`
      : `criterion ${criterion}: bound ${boundInWords(all, unit)} with it, ${boundInWords(without, unit)} without it`,
  );
  return `Specimen ${specimen} (run ${run}), ${valueInWords({ kind: 'exact', value }, unit)}, lies ${side === 'low' ? 'lower' : 'higher'} than the scatter of the others explains (statistic ${statistic.toFixed(2)}, critical ${critical.toFixed(2)} at the ${percent(level)} level; Grubbs 1969). It is to be looked into, and stays in the claim.${effects.length > 0 ? ` With and without, ${effects.join('; ')}.` : ''}`;
}
