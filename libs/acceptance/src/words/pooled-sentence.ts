import { isNotEvaluated, type Language, numeral, type PooledLots } from '@breakbook/lab';
import { countedIn, listed } from './counted.js';
import { percent } from './percent.js';
import { sayIn } from './say.js';

type Found = Omit<PooledLots, 'sentence'>;

/** Which earlier lots stood beside this one, and what came of the declared test. */
export function earlierInWords(found: Found, language: Language = 'en', reworded = asItIs): string {
  const say = sayIn(language);
  const named = found.lots.map(({ lot, n, evaluation }) => {
    const from = evaluation === undefined ? '' : say('evaluation {evaluation}, ', { evaluation });
    return `${lot} (${from}${n === 0 ? say('no value that can be ranked') : say('{n} values', { n })})`;
  });
  const which = named.length === 0 ? say('There is none') : say('Earlier: {lots}', { lots: listed(named, language) });
  return `${which}; ${whyPooled(found, language, reworded)}.`;
}

function whyPooled({ test, used, lots, because }: Found, language: Language, reworded: (text: string) => string) {
  if (language === 'en' || isNotEvaluated(test)) return reworded(because);
  return whetherPooled({ level: test.level, used, lots: lots.length + 1 }, language);
}

/** What the test of earlier lots leads to. */
export function whetherPooled(
  { level, used, lots }: { level: number; used: boolean; lots: number },
  language: Language = 'en',
): string {
  const say = sayIn(language);
  return used
    ? say('the test does not tell the lots apart at the {level} level: the bound rests on all {lots} together', {
        level: percent(level, language),
        lots: countedIn(language, lots, 'lot'),
      })
    : say('the test tells the lots apart at the {level} level: the bound rests on this lot alone', {
        level: percent(level, language),
      });
}

/** What the test would have missed: lots that it does not tell apart may differ all the same. */
export function powerInWords(power: PooledLots['power'], language: Language = 'en', reworded = asItIs): string {
  const say = sayIn(language);
  if (isNotEvaluated(power)) return say('Not evaluated: {because}.', { because: reworded(power.notEvaluated.because) });
  return say(
    'A mean off by {share} would be seen with probability {probability} ({replicates} simulated sets, normal, seed {seed}).',
    {
      share: percent(power.shift, language),
      probability: numeral(power.probability.toFixed(2), language),
      replicates: power.replicates,
      seed: power.seed,
    },
  );
}

/** Earlier lots, test and power in one piece. */
export function pooledSentence(found: Found, language: Language = 'en', reworded = asItIs): string {
  return sayIn(language)('{earlier} Would a difference that matters have been seen? {power}', {
    earlier: earlierInWords(found, language, reworded),
    power: powerInWords(found.power, language, reworded),
  });
}

/** Reasons that were handed over in words stay as they are, unless whoever asks knows them in the language. */
function asItIs(because: string): string {
  return because;
}
