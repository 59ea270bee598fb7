import { type ComparedValue, isNotEvaluated, type NotEvaluated, notEvaluated, type Step } from '@breakbook/lab';
import { kSampleAndersonDarling } from '@breakbook/statistics';
import { counted, percent } from '../../words/index.js';
import { chance } from '../words.js';

/** Lots are told apart at this level, whatever level the comparison is held to. */
const LEVEL = 0.05;
const FEWEST = 3;

/** Values lot by lot, the lots in order of size and name, so that the same case is always taken in the same order. */
export function byLot<T extends Pick<ComparedValue, 'lot'>>(values: readonly T[]): { lot: string; values: T[] }[] {
  const lots = [...new Set(values.map(({ lot }) => lot))];
  return lots
    .map((lot) => ({ lot, values: values.filter((one) => one.lot === lot) }))
    .sort((a, b) => b.values.length - a.values.length || (a.lot < b.lot ? -1 : 1));
}

export function tooFewLots(lots: number): NotEvaluated | undefined {
  return lots >= FEWEST
    ? undefined
    : notEvaluated(
        `the reference values come from ${counted(lots, 'lot')}, which do not tell how lots scatter`,
        `units of at least ${FEWEST} lots are tested`,
      );
}

/**
 * May units of all lots be taken for one population? Refused where the test tells the lots apart, or cannot be made.
 *
 * Source: Scholz and Stephens (1987), J. Amer. Statist. Assoc. 82, 918-924.
 */
export function lotsAlike(groups: readonly (readonly number[])[]): Step | NotEvaluated {
  const tested = kSampleAndersonDarling(groups, LEVEL);
  if (isNotEvaluated(tested))
    return notEvaluated(
      `lots are declared alike, and whether they are cannot be tested: ${tested.notEvaluated.because}`,
      tested.notEvaluated.possibleIf,
    );
  const { statistic, critical, p, same } = tested;
  if (!same)
    return notEvaluated(
      `lots are declared alike, and the test tells them apart (p = ${chance(p)}, k-sample Anderson-Darling at ${percent(LEVEL)})`,
      'lots are declared to vary, in a comparison of its own',
    );
  return {
    question: 'May units of all lots be taken for one population?',
    numbers: { lots: groups.length, statistic, critical, level: LEVEL, p },
    answer: `The test does not tell the ${groups.length} lots apart at ${percent(LEVEL)}.`,
    formula: 'k-sample Anderson-Darling statistic, by midranks',
    source: 'Scholz and Stephens (1987), J. Amer. Statist. Assoc. 82, 918-924',
  };
}
