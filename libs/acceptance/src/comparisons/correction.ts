import { type Comparison, isNotEvaluated, type NotEvaluated, type Step } from '@breakbook/lab';
import { reaches } from './tools/tested.js';
import { chance, levelInWords } from './words.js';

/**
 * The level that each p is held to, so that all of them together keep the declared one. Every declared characteristic counts,
 * with p = 1 where it could not be evaluated.
 *
 *     Bonferroni   level / k
 *     Holm         the j-th smallest p is held to level / (k - j + 1), down to the first that is not called; all after that
 *                  to the level at which it stopped, so that bound and finding say the same
 *
 * Source: Holm (1979), Scand. J. Statist. 6, 65-70.
 */
export function levelsFor(
  ps: readonly (number | NotEvaluated)[],
  { confidence, correction }: Pick<Comparison, 'confidence' | 'correction'>,
): number[] {
  // 1 - 0.95 is 0.05 and a little, which no printed level is.
  const alpha = Number((1 - confidence).toPrecision(12));
  const k = ps.length;
  if (correction === 'none') return ps.map(() => alpha);
  if (correction === 'Bonferroni') return ps.map(() => alpha / k);
  const numbers = ps.map((p) => (isNotEvaluated(p) ? 1 : p));
  const order = numbers.map((_, index) => index).sort((a, b) => (numbers[a] as number) - (numbers[b] as number));
  const levels = new Array<number>(k).fill(alpha);
  let stopped: number | undefined;
  order.forEach((index, place) => {
    const own = alpha / (k - place);
    levels[index] = stopped ?? own;
    if (stopped === undefined && !reaches(numbers[index] as number, own)) stopped = own;
  });
  return levels;
}

/** How the level of one characteristic came about. */
export function correctionStep(
  p: number | NotEvaluated,
  level: number,
  { confidence, correction, characteristics }: Pick<Comparison, 'confidence' | 'correction' | 'characteristics'>,
): Step {
  const k = characteristics.length;
  return {
    question: 'To which level is this p held?',
    numbers: { confidence, characteristics: k, level, ...(isNotEvaluated(p) ? {} : { p }) },
    answer: `${correction === 'none' ? 'No correction' : `${correction} over all ${k} declared`}: level ${levelInWords(level)}${isNotEvaluated(p) ? '; not evaluated, it counts with p = 1' : `, p = ${chance(p)}`}.`,
    ...(correction === 'Holm'
      ? {
          formula: 'j-th smallest p held to level / (k - j + 1), down to the first that is not called',
          source: 'Holm (1979), Scand. J. Statist. 6, 65-70',
        }
      : correction === 'Bonferroni'
        ? { formula: 'level / k', source: 'Bonferroni inequality; Holm (1979), Scand. J. Statist. 6, 65-70' }
        : {}),
  };
}
