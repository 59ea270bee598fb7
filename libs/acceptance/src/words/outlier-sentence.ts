import { isNotEvaluated, type Language, numeral, type OutlierFinding } from '@breakbook/lab';
import { boundInWords, valueInWords } from './numbers.js';
import { percent } from './percent.js';
import { sayIn } from './say.js';

/** A value far from the others, with what it does to each bound. It stays in the claim whatever is said here. */
export function outlierSentence(
  found: Omit<OutlierFinding, 'sentence'>,
  unit: string,
  language: Language = 'en',
  reworded: (because: string) => string = (because) => because,
): string {
  const say = sayIn(language);
  const { run, specimen, value, side, statistic, critical, level, bounds } = found;
  const bound = (number: number) => boundInWords(number, unit, [], language);
  const effects = bounds.map(({ criterion, with: all, without }) =>
    isNotEvaluated(without)
      ? say('criterion {criterion}: bound {all} with it, and none without it, since {because}', {
          criterion,
          all: bound(all),
          because: reworded(without.notEvaluated.because),
        })
      : say('criterion {criterion}: bound {all} with it, {without} without it', {
          criterion,
          all: bound(all),
          without: bound(without),
        }),
  );
  const lies = say(
    'Specimen {specimen} (run {run}), {value}, lies {side} than the scatter of the others explains (statistic {statistic}, critical {critical} at the {level} level; Grubbs 1969). It is to be looked into, and stays in the claim.',
    {
      specimen,
      run,
      value: valueInWords({ kind: 'exact', value }, unit, {}, language),
      side: say(side === 'low' ? 'lower' : 'higher'),
      statistic: numeral(statistic.toFixed(2), language),
      critical: numeral(critical.toFixed(2), language),
      level: percent(level, language),
    },
  );
  return effects.length === 0
    ? lies
    : `${lies} ${say('With and without, {effects}.', { effects: effects.join('; ') })}`;
}
