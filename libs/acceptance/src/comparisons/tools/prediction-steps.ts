import { isNotEvaluated, type NotEvaluated, type Step } from '@breakbook/lab';
import type { LotsSummary } from '@breakbook/statistics';
import { printSignificant } from '@breakbook/units';
import { percent } from '../../words/index.js';
import { chance } from '../words.js';
import type { Bounds, PredictionQuestion } from './predicted.js';
import type { ReferenceNumbers, Scale } from './reference-numbers.js';

export interface PredictionNumbers {
  numbers: ReferenceNumbers;
  summary: LotsSummary;
  spread: { variance: number; degrees: number };
  rigs: number;
  scores: number[];
  chances: { p: number; error: number }[];
  level: number;
  critical: number | NotEvaluated;
  bounds: Bounds;
  smallest: number | NotEvaluated;
  replicates: number;
  confidence: string;
  printed: (value: number) => string;
  scale: Scale;
}

/** Every number of a prediction under a distribution, in the order in which one follows from the other. */
export function predictionSteps(question: PredictionQuestion, found: PredictionNumbers): Step[] {
  const { tool, comparison, items } = question;
  const { numbers, summary, spread, rigs, scores, chances, level, critical, bounds, smallest, printed, scale } = found;
  const pooled = numbers.sizes.length === 1;
  const onScale = scale.logarithmic ? ' (of the natural logarithm)' : '';
  const ended =
    numbers.survivors > 0
      ? `; ${numbers.survivors} known as "at least" stand at the load where the rig ended them`
      : '';
  const steps: Step[] = [
    ...(numbers.alike ? [numbers.alike] : []),
    {
      question: 'Where does the reference lie, and how does it scatter?',
      numbers: {
        n: numbers.values.length,
        centre: summary.centre,
        ...(pooled ? {} : { lots: numbers.sizes.length, 'variance of lot means': summary.between }),
        [pooled ? 'variance' : 'mean square within lots']: summary.within,
        ...(numbers.survivors > 0 ? { 'known as at least': numbers.survivors } : {}),
      },
      answer: `Centre ${printed(scale.back(summary.centre))}, ${numbers.values.length} values${pooled ? ' taken for one population' : ` of ${numbers.sizes.length} lots`}${ended}.`,
      formula: pooled
        ? `mean and variance of all values${onScale}`
        : `mean and variance of the lot means, mean square within lots${onScale}`,
      source: 'Searle, Casella and McCulloch (1992), Variance Components, chapter 3',
    },
    {
      question: 'How far may a future value of the same kind lie from that centre?',
      numbers: {
        variance: spread.variance,
        'degrees of freedom': spread.degrees,
        ...(rigs > 0 ? { 'variance between rigs': rigs } : {}),
      },
      answer: `Standard deviation ${printSignificant(Math.sqrt(spread.variance), 4)}${onScale}, with ${printSignificant(spread.degrees, 3)} degrees of freedom.`,
      formula: pooled
        ? `(1${tool.of === 'mean' ? '/m' : ''} + 1/n) s^2${rigs > 0 ? ' + u^2' : ''}`
        : `(1 + 1/k) S^2 + (${tool.of === 'mean' ? '1/m' : '1'} - mean of 1/n_i) MSE${rigs > 0 ? ' + u^2' : ''}; degrees by Satterthwaite`,
      source:
        'Satterthwaite (1946), Biometrics Bulletin 2, 110-114; Hahn and Meeker (1991), Statistical Intervals, section 4.7',
    },
    {
      question: 'How often would units of the same kind lie so far off?',
      numbers: {
        replicates: found.replicates,
        seed: comparison.seed,
        ...Object.fromEntries(
          chances.slice(0, 12).flatMap(({ p }, index) => {
            const who = tool.of === 'mean' ? 'the mean' : (items[index]?.specimen ?? '');
            const score = scores[index] as number;
            return [[`p of ${who}`, p], ...(Number.isFinite(score) ? [[`score of ${who}`, score]] : [])];
          }),
        ),
      },
      answer: `At the worst of all shares of variance between lots${rigs > 0 ? ' and between rigs' : ''}, a chance of ${chance(Math.min(...chances.map(({ p }) => p)))}${tool.of === 'each' && items.length > 1 ? ` for any of ${items.length} items` : ''}; found by ${found.replicates} simulated comparisons of just these numbers of lots and units for each share, in which nothing differs.`,
      formula:
        '(comparisons as far off + 1) / (drawn + 1), the largest over the shares, its upper limit at two standard errors',
      source:
        'Davison and Hinkley (1997), Bootstrap Methods and their Application, section 4.2; Phipson and Smyth (2010), Statist. Appl. Genet. Mol. Biol. 9, 39; Wilson (1927), J. Amer. Statist. Assoc. 22, 209-212',
    },
    {
      question: 'Within what do future units keep?',
      numbers: {
        level,
        ...(isNotEvaluated(critical) ? {} : { 'critical score': critical }),
        ...Object.fromEntries(Object.entries(bounds).filter(([, bound]) => typeof bound === 'number')),
      },
      answer: isNotEvaluated(critical)
        ? `Not evaluated: ${critical.notEvaluated.because}.`
        : `With ${found.confidence}: ${Object.entries(bounds)
            .map(([side, bound]) => `${side} bound ${typeof bound === 'number' ? printed(bound) : 'none'}`)
            .join(', ')}.`,
      formula: 'the value whose score just has a chance of the level in the same simulation',
    },
    {
      question: 'Which difference would have been found?',
      numbers: {
        power: comparison.power,
        ...(typeof smallest === 'number' ? { 'smallest difference': smallest } : {}),
      },
      answer:
        typeof smallest === 'number'
          ? `${printed(smallest)}, with a chance of ${percent(comparison.power)}, for one ${tool.of === 'mean' ? 'mean' : 'item'}, at the scatter the reference shows.`
          : `Not evaluated: ${smallest.notEvaluated.because}.`,
      formula:
        'the same simulation at the share of variance the reference shows, items shifted until so many are called out',
    },
  ];
  return steps;
}
