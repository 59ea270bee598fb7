import {
  isNotEvaluated,
  limitName,
  type MeasuredLimit,
  type NotEvaluated,
  probabilityInWords,
  type Result,
  type Step,
  type Zone,
} from '@breakbook/lab';
import { printDeclared } from '@breakbook/units';
import { capital, rangeInWords, ruleInWords, valueInWords } from '../words/index.js';
import type { Range } from './limit-in-unit.js';

export interface VerdictParts {
  limit: MeasuredLimit;
  result: Result;
  limitValue: Range;
  acceptance: Range;
  guardBand: number;
  margin: number | undefined;
  zone: Zone | undefined;
  probability: number | NotEvaluated;
  answer: { outcome: string; because?: string };
}

/** How a verdict came about, step by step, with the numbers of each. */
export function verdictSteps(parts: VerdictParts): Step[] {
  const { limit, result, guardBand, margin, zone, probability, answer } = parts;
  const { unit, uncertainty } = result;
  const printed = (value: number) => valueInWords({ kind: 'exact', value }, unit, { limits: ends(parts) });
  return [
    {
      question: 'What was found of this specimen?',
      numbers: {
        ...numbersOf(result.value),
        ...(uncertainty ? { U: uncertainty.expanded, k: uncertainty.k } : {}),
      },
      answer: isNotEvaluated(result.value)
        ? `No value: ${result.value.notEvaluated.because}.`
        : `${capital(valueInWords(result.value, unit, { limits: ends(parts) }))}; ${result.because}.`,
    },
    {
      question: 'What does the limit ask, and by which rule?',
      numbers: { ...named(parts.limitValue, 'limit') },
      answer: `${capital(rangeInWords(limit))} (${limitName(limit)}, ${limit.basis}). Rule: ${ruleInWords(limit)}.`,
      source: `${limit.source}, ${limit.edition}`,
    },
    ...(limit.decisionRule.rule === 'simple' || !uncertainty
      ? []
      : [
          {
            question: 'How wide is the guard band?',
            numbers: {
              r: limit.decisionRule.r,
              U: uncertainty.expanded,
              w: guardBand,
              ...named(parts.acceptance, 'acceptance limit'),
            },
            formula: 'w = r U',
            source: 'ILAC-G8:09/2019, 4.2.2',
            answer: `${printed(guardBand)}, as the value's own uncertainty is ${printed(uncertainty.expanded)} (k = ${printDeclared(uncertainty.k)}).`,
          },
        ]),
    {
      question: 'On which side does it lie, and by how much?',
      numbers: { ...(margin === undefined ? {} : { margin }), ...(zone === undefined ? {} : { zone }) },
      answer:
        answer.because === undefined
          ? `${capital(zone ?? answer.outcome)}: ${answer.outcome}.`
          : `${capital(answer.outcome)}: ${answer.because}.`,
    },
    {
      question: 'How likely is it that the specimen itself lies within the limit?',
      numbers: isNotEvaluated(probability) ? {} : { probability },
      formula: 'Phi((upper - y) / u) - Phi((lower - y) / u), u = U / k',
      source: 'JCGM 106:2012, clause 7, without knowledge from before the measurement',
      answer: isNotEvaluated(probability)
        ? `Not evaluated: ${probability.notEvaluated.because}.`
        : `With probability ${probabilityInWords(probability)}, by the measurement alone.`,
    },
  ];
}

function ends({ limitValue, acceptance }: VerdictParts): number[] {
  return [limitValue.lower, limitValue.upper, acceptance.lower, acceptance.upper].filter((one) => one !== undefined);
}

function numbersOf(value: Result['value']): Step['numbers'] {
  if (isNotEvaluated(value)) return {};
  return value.kind === 'between' ? { lower: value.lower, upper: value.upper } : { [value.kind]: value.value };
}

function named({ lower, upper }: Range, name: string): Step['numbers'] {
  return {
    ...(lower === undefined ? {} : { [`lower ${name}`]: lower }),
    ...(upper === undefined ? {} : { [`upper ${name}`]: upper }),
  };
}
