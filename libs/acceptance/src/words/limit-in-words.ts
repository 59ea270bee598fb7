import { type Limit, limitName } from '@breakbook/lab';
import { printDeclared } from '@breakbook/units';
import { withUnit } from './numbers.js';

/** `at least 1 500 kPa (BP-INT rev. 2)`: a limit as declared, in its own unit, with the name of its revision. */
export function limitInWords(limit: Limit): string {
  return `${rangeInWords(limit)} (${limitName(limit)})`;
}

/** `the limit of at least 1 500 kPa (BP-INT rev. 2)`, for the middle of a sentence. */
export function theLimit(limit: Limit): string {
  return `the limit of ${limitInWords(limit)}`;
}

/** `at least 1 500 kPa`: what the limit asks of a value, without its name. */
export function rangeInWords(limit: Limit): string {
  const declared = (value: number) => withUnit(printDeclared(value), limit.unit);
  if (limit.bound === 'absent') return `none of ${limit.signs.join(', ')}`;
  return limit.bound === 'between'
    ? `between ${declared(limit.lower)} and ${declared(limit.upper)}`
    : `${limit.bound} ${declared(limit.value)}`;
}

/** When a result is accepted, in words: the decision rule as a reader of the report may check it by hand. */
export function ruleInWords(limit: Limit): string {
  const { decisionRule } = limit;
  if (limit.bound === 'absent')
    return `accepted when none of the signs is found; looked for ${limit.inspection.method}, which finds ${limit.inspection.detects.replace(/\.\s*$/, '')}`;
  if (decisionRule.rule === 'simple')
    switch (limit.bound) {
      case 'at least':
        return 'accepted when the result is at or above the limit';
      case 'at most':
        return 'accepted when the result is at or below the limit';
      case 'between':
        return 'accepted when the result lies at or between the limits';
    }
  const band = decisionRule.r === 1 ? 'U' : `${decisionRule.r} U`;
  if (decisionRule.rule === 'four zones')
    return `four outcomes: conforms when the result lies inside the limit by ${band} or more, conforms conditionally when inside by less, does not conform conditionally when outside by less than ${band}, does not conform when further outside`;
  switch (limit.bound) {
    case 'at least':
      return `accepted when the result minus ${band} is at or above the limit`;
    case 'at most':
      return `accepted when the result plus ${band} is at or below the limit`;
    case 'between':
      return `accepted when the result lies inside both limits by ${band} or more`;
  }
}
