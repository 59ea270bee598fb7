import { type CharacteristicValue, type Limit, limitName, type VerdictOutcome } from '@breakbook/lab';
import { printDeclared } from '@breakbook/units';
import { rangeInWords, ruleInWords } from './limit-in-words.js';
import { valueInWords } from './numbers.js';

export interface VerdictFields {
  /** What was measured, such as "Burst pressure". */
  title: string;
  specimen: string;
  unit: string;
  value?: CharacteristicValue;
  uncertainty?: { expanded: number; k: number };
  limit: Limit;
  /** In `unit`, unrounded. */
  limitValue: { lower?: number; upper?: number };
  acceptance: { lower?: number; upper?: number };
  outcome: VerdictOutcome;
  because?: string;
}

/**
 * A statement of conformity with what ISO/IEC 17025:2017 (7.8.6.2) asks of one: the result it covers, the limit with
 * its revision, the rule and the outcome.
 */
export function verdictSentence(fields: VerdictFields): string {
  const { title, specimen, unit, limit, outcome } = fields;
  return [
    `${title} of specimen ${specimen}: ${resultInWords(fields)}.`,
    `${capital(rangeInWords(limit))} (${limit.unit === unit ? '' : `${limitIn(unit, fields.limitValue)}; `}${limitName(limit)}).`,
    `Rule: ${ruleInWords(limit)}.`,
    fields.because === undefined ? `${capital(outcome)}.` : `${capital(outcome)}: ${fields.because}.`,
  ].join(' ');
}

function resultInWords({ value, unit, uncertainty, limitValue, acceptance }: VerdictFields): string {
  if (!value) return 'no value';
  const limits = [limitValue.lower, limitValue.upper, acceptance.lower, acceptance.upper].filter(
    (one) => one !== undefined,
  );
  const words = valueInWords(value, unit, { limits, ...(uncertainty ? { uncertainty: uncertainty.expanded } : {}) });
  if (!uncertainty) return `${words}, no uncertainty stated`;
  const expanded = valueInWords({ kind: 'exact', value: uncertainty.expanded }, unit, {
    uncertainty: uncertainty.expanded,
  });
  return `${words}, U = ${expanded} (k = ${printDeclared(uncertainty.k)})`;
}

function limitIn(unit: string, { lower, upper }: { lower?: number; upper?: number }): string {
  const printed = [lower, upper]
    .filter((one) => one !== undefined)
    .map((one) => valueInWords({ kind: 'exact', value: one }, unit));
  return printed.join(' to ');
}

export function capital(sentence: string): string {
  return sentence.charAt(0).toUpperCase() + sentence.slice(1);
}
