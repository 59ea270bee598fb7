import {
  type CharacteristicComparison,
  isNotEvaluated,
  type NotEvaluated,
  notEvaluated,
  type Step,
  type ToolOf,
} from '@breakbook/lab';
import {
  arrangementsOf,
  gehanTest,
  mannWhitney,
  permutationTest,
  smallestDifferenceOfMeans,
  smallestShiftByRanks,
  welch,
} from '@breakbook/statistics';
import { chance, confidenceAt, inUnit, levelInWords, mattersLine, powerLine, sizeOf } from '../words.js';
import { asNumbers, ONLY_EXACT, type TwoGroups, twoGroups } from './group-values.js';
import { permutationLimits } from './permutation-limits.js';
import {
  type AtLevel,
  afterSteps,
  reaches,
  type Tested,
  type ToolQuestion,
  undecided,
  whyNotConsistent,
} from './tested.js';

type Question = ToolQuestion<ToolOf<'two groups'>>;
type Effect = NonNullable<CharacteristicComparison['effect']>;

/** A test's p on each side, second group against first, and what the difference comes to. */
interface TestOfGroups {
  pBelow: number;
  pAbove: number;
  pTwoSided: number;
  pError?: number;
  name: string;
  source: string;
  numbers: Record<string, number>;
  effect?: (level: number) => Effect;
  smallest: (level: number) => number | NotEvaluated;
  /** The smallest p that any values could come to; left out where it is 0. */
  least?: number;
}

const NO_POWER = notEvaluated(
  'the power of this test hangs on a distribution, and none is declared',
  'the tool is Welch, or Mann-Whitney with values known exactly',
);

/** The p of the most extreme of all arrangements; on both sides it has a mirror image, unless sizes differ and means are compared. */
function leastOf({ tool }: Question, { first, second }: TwoGroups, mirrored: boolean): number {
  return (tool.side === 'either' && mirrored ? 2 : 1) / arrangementsOf(first.length + second.length, second.length);
}

/** Does the second group (the items) tend to lie lower or higher than the first (the reference), and by how much? */
export function twoGroupsTool(question: Question): Tested {
  const { tool } = question;
  const groups = twoGroups(question, tool.unit);
  if (isNotEvaluated(groups)) return { p: groups, at: () => undecided(question, groups) };
  const found = testOf(question, groups);
  if (isNotEvaluated(found)) return { p: found, at: () => undecided(question, found) };
  const p = tool.side === 'below' ? found.pBelow : tool.side === 'above' ? found.pAbove : found.pTwoSided;
  return afterSteps(groups.steps, {
    p,
    ...(found.pError === undefined ? {} : { pError: found.pError }),
    at: (level) => atLevel(question, found, p, level),
  });
}

function testOf(question: Question, groups: TwoGroups): TestOfGroups | NotEvaluated {
  const { tool, comparison } = question;
  if (tool.test === 'Welch') return groups.exact ? byWelch(question, groups) : ONLY_EXACT;
  if (!groups.exact) return byGehan(question, groups);
  const [a, b] = [asNumbers(groups.second), asNumbers(groups.first)];
  if (tool.test === 'permutation') {
    const tested = permutationTest(a, b, { seed: comparison.seed });
    if (isNotEvaluated(tested)) return tested;
    const { pLess, pGreater, pTwoSided, difference, arrangements, simulationError } = tested;
    return {
      pBelow: pLess,
      pAbove: pGreater,
      pTwoSided,
      ...(simulationError === undefined ? {} : { pError: simulationError }),
      name: 'Permutation test of means',
      source: 'Pitman (1937), Suppl. J. R. Statist. Soc. 4, 119-130',
      numbers: { arrangements, difference },
      effect: (level) => ({ difference, limits: permutationLimits(a, b, level, comparison.seed) }),
      smallest: () => NO_POWER,
      least: leastOf(question, groups, a.length === b.length),
    };
  }
  const tested = mannWhitney(a, b, 0.95);
  if (isNotEvaluated(tested)) return tested;
  // With equal values only the count of all arrangements of their ranks is exact.
  const ranks = tested.exact ? tested : permutationTest(a, b, { statistic: 'rank-sum', seed: comparison.seed });
  if (isNotEvaluated(ranks)) return ranks;
  return {
    pBelow: ranks.pLess,
    pAbove: ranks.pGreater,
    pTwoSided: ranks.pTwoSided,
    name: 'Mann-Whitney test',
    source:
      'Mann and Whitney (1947), Ann. Math. Statist. 18, 50-60; Hodges and Lehmann (1963), Ann. Math. Statist. 34, 598-611',
    numbers: { u: tested.u, pairs: a.length * b.length },
    effect: (level) => {
      const { shift } = mannWhitney(a, b, 1 - level) as typeof tested;
      return { difference: shift.estimate, limits: shift.limits };
    },
    smallest: (level) => {
      const found = smallestShiftByRanks(a, b, {
        alpha: level,
        power: comparison.power,
        sides: tool.side === 'either' ? 2 : 1,
        seed: comparison.seed,
      });
      return isNotEvaluated(found) ? found : found.shift;
    },
    least: leastOf(question, groups, true),
  };
}

function byWelch({ tool, comparison }: Question, groups: TwoGroups): TestOfGroups | NotEvaluated {
  const [a, b] = [asNumbers(groups.second), asNumbers(groups.first)];
  const tested = welch(a, b, 0.95);
  if (isNotEvaluated(tested)) return tested;
  const { t, df, p, difference } = tested;
  return {
    pBelow: t < 0 ? p / 2 : 1 - p / 2,
    pAbove: t > 0 ? p / 2 : 1 - p / 2,
    pTwoSided: p,
    name: 'Welch test of means',
    source: 'Welch (1947), Biometrika 34, 28-35',
    numbers: { t, 'degrees of freedom': df, difference },
    effect: (level) => ({ difference, limits: (welch(a, b, 1 - level) as typeof tested).limits }),
    smallest: (level) => {
      const found = smallestDifferenceOfMeans(a, b, {
        alpha: level,
        power: comparison.power,
        sides: tool.side === 'either' ? 2 : 1,
      });
      return isNotEvaluated(found) ? found : found.difference;
    },
  };
}

function byGehan(question: Question, groups: TwoGroups): TestOfGroups | NotEvaluated {
  const { tool, comparison } = question;
  const { first, second } = groups;
  const within = (values: TwoGroups['first']) => values.map(({ low, high }) => ({ from: low, to: high }));
  const tested = gehanTest(within(second), within(first), { seed: comparison.seed });
  if (isNotEvaluated(tested)) return tested;
  const { w, sd, pLess, pGreater, pTwoSided, simulationError } = tested;
  return {
    pBelow: pLess,
    pAbove: pGreater,
    pTwoSided,
    ...(simulationError === undefined ? {} : { pError: simulationError }),
    name: `${tool.test === 'permutation' ? 'Permutation test' : 'Rank test'} by Gehan's scores, since some values are known from one side only`,
    source: 'Gehan (1965), Biometrika 52, 203-223; Mantel (1967), Biometrics 23, 65-78',
    numbers: { w, sd, pairs: first.length * second.length },
    smallest: () => NO_POWER,
    least: leastOf(question, groups, first.length === second.length),
  };
}

function atLevel(question: Question, found: TestOfGroups, p: number, level: number): AtLevel {
  const { names, declared, reference, items } = question;
  const effect = found.effect?.(level);
  const smallest = found.smallest(level);
  const by = effect
    ? differenceInWords(question, effect, level)
    : 'by how much is not told, since some values are known from one side only';
  const tests = `${found.name}, p = ${chance(p)}`;
  const called = reaches(p, level);
  const unlike = whyNotConsistent(question, smallest);
  const groups = `${names.items} ${sizeOf(items)} and ${names.reference} ${sizeOf(reference)}`;
  const hopeless = found.least !== undefined && !reaches(found.least, level);
  const finding = called ? 'B' : unlike || hopeless ? 'C' : 'D';
  const power = powerLine(smallest, question, level);
  const way = found.pBelow < found.pAbove ? 'lower' : 'higher';
  const sentence = called
    ? `${declared.title}: values of ${names.items} ${sizeOf(items)} tend to lie ${way} than those of ${names.reference} ${sizeOf(reference)} at the ${levelInWords(level)} level (${tests}); ${by}.`
    : hopeless
      ? `${declared.title}: inconclusive between ${groups}, because even the most extreme order of so few values has a chance of ${chance(found.least ?? 1)}, and the level is ${levelInWords(level)} (${tests}; ${by}).`
      : unlike
        ? `${declared.title}: inconclusive between ${groups}; no difference was found (${tests}; ${by}), but ${mattersLine(question, unlike, smallest)}.`
        : `${declared.title}: no difference was found between ${groups} at the ${levelInWords(level)} level (${tests}); ${by}. ${power}`;
  return {
    ...(effect ? { effect } : {}),
    smallestDifference: smallest,
    finding,
    sentence,
    each: question.items.map(({ specimen }) => ({ specimen, level: finding, sentence })),
    steps: stepsOf(question, found, { p, level, by, effect, power, smallest }),
  };
}

function differenceInWords(question: Question, { difference, limits }: Effect, level: number): string {
  const shown = `difference ${inUnit(difference, question)}`;
  return isNotEvaluated(limits)
    ? `${shown}, without limits: ${limits.notEvaluated.because}`
    : `${shown}, ${confidenceAt(level)} limits ${inUnit(limits[0], question)} to ${inUnit(limits[1], question)}`;
}

function stepsOf(
  { tool }: Question,
  { name, source, numbers, pBelow, pAbove, pTwoSided }: TestOfGroups,
  told: {
    p: number;
    level: number;
    by: string;
    effect: Effect | undefined;
    power: string;
    smallest: number | NotEvaluated;
  },
): Step[] {
  const { p, level, by, effect, power, smallest } = told;
  return [
    {
      question: `Could the difference between the groups (by ${tool.unit}) come from chance alone?`,
      numbers: { ...numbers, 'p below': pBelow, 'p above': pAbove, 'p either': pTwoSided, level },
      answer: `${name}: p = ${chance(p)} on the side declared (${tool.side}).`,
      source,
    },
    {
      question: 'By how much do they differ?',
      numbers: effect
        ? {
            difference: effect.difference,
            ...(isNotEvaluated(effect.limits)
              ? {}
              : { 'lower limit': effect.limits[0], 'upper limit': effect.limits[1] }),
          }
        : {},
      answer: by,
      formula: 'second group less first, with two-sided limits at 1 - level',
    },
    {
      question: 'Which difference would have been found?',
      numbers: typeof smallest === 'number' ? { 'smallest difference': smallest } : {},
      answer: power,
      ...(typeof smallest === 'number' ? { source: 'Cohen (1988), Statistical Power Analysis, chapter 2' } : {}),
    },
  ];
}
