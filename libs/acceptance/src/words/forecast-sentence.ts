import { type Language, numeral } from '@breakbook/lab';
import { countedIn } from './counted.js';
import { sayIn } from './say.js';

/** How likely the runs still to be made would meet the line. */
export function forecastSentence(
  {
    remaining,
    waiting,
    line,
    probability,
    made,
  }: {
    remaining: number;
    /** Are some of them recorded already, and neither read nor decided? */
    waiting: boolean;
    line: string;
    probability: number;
    /** Runs in the claim. */
    made: number;
  },
  language: Language = 'en',
): string {
  const say = sayIn(language);
  const values = {
    runs: countedIn(language, remaining, 'planned run'),
    line,
    probability: printed(probability, language),
    made,
  };
  return waiting
    ? say(
        'The {runs} still to be made or decided would meet line {line} with probability {probability}, judged by the {made} in the claim. A forecast decides nothing.',
        values,
      )
    : say(
        'The {runs} still to be made would meet line {line} with probability {probability}, judged by the {made} in the claim. A forecast decides nothing.',
        values,
      );
}

/** Never printed as certain. */
function printed(probability: number, language: Language): string {
  const say = sayIn(language);
  const number = (text: string) => numeral(text, language);
  if (probability > 0.99) return say('above {probability}', { probability: number('0.99') });
  return probability < 0.01
    ? say('below {probability}', { probability: number('0.01') })
    : number(probability.toFixed(2));
}
