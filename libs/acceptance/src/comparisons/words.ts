import type { CharacteristicValue, NotEvaluated } from '@breakbook/lab';
import { printSignificant } from '@breakbook/units';
import { capital, counted, percent, valueInWords } from '../words/index.js';
import type { ToolQuestion } from './tools/tested.js';

/** `98.75 %`: one less the level, as that is told. */
export function confidenceAt(level: number): string {
  return percent(1 - levelTold(level));
}

/** `1.25 %` */
export function levelInWords(level: number): string {
  return percent(levelTold(level));
}

/** A level as it is told: 0.0125 to its last digit, since 0.013 would be another level, and a third of 0.05 to three of them. */
function levelTold(level: number): number {
  const whole = Number(level.toPrecision(4));
  return Math.abs(whole - level) <= 1e-9 * level ? whole : Number(level.toPrecision(3));
}

export function chance(p: number): string {
  return p < 1e-4 ? 'less than 0.0001' : printSignificant(p, 2);
}

/** A number in the unit of the comparison, printed so that it stays on its side of others. */
export function inUnit(
  value: number,
  { declared: { unit = '1' } }: Pick<ToolQuestion, 'declared'>,
  beside: readonly number[] = [],
): string {
  return valueInWords({ kind: 'exact', value }, unit, { limits: beside });
}

export function measured(
  value: CharacteristicValue,
  { declared: { unit = '1' } }: Pick<ToolQuestion, 'declared'>,
  beside: readonly number[] = [],
): string {
  return valueInWords(value, unit, { limits: beside });
}

/** `(n = 10, 3 lots)` */
export function sizeOf(reference: readonly { lot: string }[]): string {
  return `(n = ${reference.length}, ${counted(new Set(reference.map(({ lot }) => lot)).size, 'lot')})`;
}

/** What was not decided, why, and what would decide it. */
export function inconclusive({ notEvaluated: { because, possibleIf } }: NotEvaluated, title: string): string {
  return `${title}: inconclusive, because ${because}. It could be decided if ${possibleIf}.`;
}

/** The line on power that stands beside every "no difference". */
export function powerLine(smallest: number | NotEvaluated, question: ToolQuestion, level: number): string {
  const { power } = question.comparison;
  if (typeof smallest !== 'number')
    return `Which difference would have been found is not known: ${smallest.notEvaluated.because}.`;
  return `A difference of ${inUnit(smallest, question)} or more would have been found with a chance of ${percent(power)} at the ${levelInWords(level)} level.`;
}

/** Why agreement is not said where the reference could not have shown what matters. */
export function mattersLine(
  question: ToolQuestion,
  why: 'unknown' | 'too large',
  smallest: number | NotEvaluated,
): string {
  const matters = inUnit(question.declared.differenceThatMatters ?? 0, question);
  return why === 'unknown' || typeof smallest !== 'number'
    ? `whether a difference of ${matters}, which would matter, could have been shown is not known`
    : `the smallest difference that could be shown, ${inUnit(smallest, question)}, is larger than the ${matters} that would matter`;
}

export function sentenceOf(text: string): string {
  return capital(text.endsWith('.') ? text : `${text}.`);
}
