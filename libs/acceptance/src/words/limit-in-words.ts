import { type Language, type Limit, numeral } from '@breakbook/lab';
import { printDeclared } from '@breakbook/units';
import { withUnit } from './numbers.js';
import { sayIn } from './say.js';

/** `BP-INT rev. 2`: a limit by the name of its revision. */
export function nameOfLimit({ limit, revision }: { limit: string; revision: number }, language: Language = 'en') {
  return sayIn(language)('{limit} rev. {revision}', { limit, revision });
}

/** `at least 1 500 kPa (BP-INT rev. 2)`: a limit as declared, in its own unit, with the name of its revision. */
export function limitInWords(limit: Limit, language: Language = 'en'): string {
  return `${rangeInWords(limit, language)} (${nameOfLimit(limit, language)})`;
}

/** `the limit of at least 1 500 kPa (BP-INT rev. 2)`, for the middle of a sentence. */
export function theLimit(limit: Limit, language: Language = 'en'): string {
  return sayIn(language)('the limit of {range} ({name})', {
    range: rangeInWords(limit, language),
    name: nameOfLimit(limit, language),
  });
}

/** `at least 1 500 kPa`: what the limit asks of a value, without its name. */
export function rangeInWords(limit: Limit, language: Language = 'en'): string {
  const say = sayIn(language);
  const declared = (value: number) => withUnit(numeral(printDeclared(value), language), limit.unit);
  switch (limit.bound) {
    case 'absent':
      return say('none of {signs}', { signs: limit.signs.join(', ') });
    case 'between':
      return say('between {lower} and {upper}', { lower: declared(limit.lower), upper: declared(limit.upper) });
    case 'at least':
      return say('at least {value}', { value: declared(limit.value) });
    case 'at most':
      return say('at most {value}', { value: declared(limit.value) });
  }
}

/** When a result is accepted, in words: the decision rule as a reader of the report may check it by hand. */
export function ruleInWords(limit: Limit, language: Language = 'en'): string {
  const say = sayIn(language);
  const { decisionRule } = limit;
  if (limit.bound === 'absent')
    return say('accepted when none of the signs is found; looked for {method}, which finds {detects}', {
      method: limit.inspection.method,
      detects: limit.inspection.detects.replace(/\.\s*$/, ''),
    });
  if (decisionRule.rule === 'simple')
    switch (limit.bound) {
      case 'at least':
        return say('accepted when the result is at or above the limit');
      case 'at most':
        return say('accepted when the result is at or below the limit');
      case 'between':
        return say('accepted when the result lies at or between the limits');
    }
  const band = decisionRule.r === 1 ? 'U' : `${numeral(String(decisionRule.r), language)} U`;
  if (decisionRule.rule === 'four zones')
    return say(
      'four outcomes: conforms when the result lies inside the limit by {band} or more, conforms conditionally when inside by less, does not conform conditionally when outside by less than {band}, does not conform when further outside',
      { band },
    );
  switch (limit.bound) {
    case 'at least':
      return say('accepted when the result minus {band} is at or above the limit', { band });
    case 'at most':
      return say('accepted when the result plus {band} is at or below the limit', { band });
    case 'between':
      return say('accepted when the result lies inside both limits by {band} or more', { band });
  }
}
