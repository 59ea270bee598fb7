import { type ComparedValue, isNotEvaluated, type NotEvaluated, notEvaluated, type Step } from '@breakbook/lab';
import { type KSampleAndersonDarling, kSampleAndersonDarling } from '@breakbook/statistics';
import { counted, percent } from '../../words/index.js';
import { endsOf, standIn } from '../ends.js';
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
  if (!tested.same)
    return notEvaluated(
      `lots are declared alike, and the test tells them apart (p = ${chance(tested.p)}, k-sample Anderson-Darling at ${percent(LEVEL)})`,
      'lots are declared to vary, in a comparison of its own',
    );
  return alikeStep('May units of all lots be taken for one population?', tested);
}

/**
 * Do specimens of one side speak one by one? Refused where the test tells their lots apart: a lot that lies off then counts
 * once for each of its specimens, and the groups differ too soon. Undefined where no two lots have 2 values.
 */
export function oneByOne(values: readonly ComparedValue[], side: string): Step | NotEvaluated | undefined {
  const lots = byLot(values).filter((lot) => lot.values.length > 1);
  if (lots.length < 2) return undefined;
  const tested = kSampleAndersonDarling(
    lots.map((lot) => lot.values.map(({ value }) => standIn(endsOf(value)))),
    LEVEL,
  );
  if (isNotEvaluated(tested)) return undefined;
  if (!tested.same)
    return notEvaluated(
      `specimens of ${side} are compared one by one, and the test tells their lots apart (p = ${chance(tested.p)}, k-sample Anderson-Darling at ${percent(LEVEL)})`,
      'lot means are compared, in a comparison of its own',
    );
  return alikeStep(`May specimens of ${side} be compared one by one?`, tested);
}

function alikeStep(question: string, { groups, statistic, critical, p }: KSampleAndersonDarling): Step {
  return {
    question,
    numbers: { lots: groups, statistic, critical, level: LEVEL, p },
    answer: `The test does not tell the ${groups} lots apart at ${percent(LEVEL)}.`,
    formula: 'k-sample Anderson-Darling statistic, by midranks',
    source: 'Scholz and Stephens (1987), J. Amer. Statist. Assoc. 82, 918-924',
  };
}
