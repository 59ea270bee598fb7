import { type ComparisonLevel, isNotEvaluated, type NotEvaluated, type ToolOf } from '@breakbook/lab';
import { equivalence, nonInferiority, welch } from '@breakbook/statistics';
import { chance, confidenceAt, inUnit, sizeOf } from '../words.js';
import { asNumbers, twoGroups } from './group-values.js';
import { marginByRanks } from './margins-by-ranks.js';
import { type AtLevel, afterSteps, reaches, type Tested, type ToolQuestion, undecided } from './tested.js';

export type MarginQuestion = ToolQuestion<ToolOf<'equivalence'> | ToolOf<'non-inferiority'>>;

/** What is asked of a difference: between which ends it must surely lie, either of them open. */
interface Margin {
  low: number;
  high: number;
  p: number;
  numbers: Record<string, number>;
  words: string;
  source: string;
}

/**
 * Is the difference of the items from the reference surely within a margin declared beforehand? "Consistent" only where it is
 * shown; a difference found to lie beyond the margin is "not consistent"; everything between is inconclusive. Agreement is
 * never shown by no difference being found.
 */
export function marginTool(question: MarginQuestion): Tested {
  const groups = twoGroups(question, question.tool.unit);
  if (isNotEvaluated(groups)) return { p: groups, at: () => undecided(question, groups) };
  if (!groups.exact) return afterSteps(groups.steps, marginByRanks(question, groups));
  const [a, b] = [asNumbers(groups.second), asNumbers(groups.first)];
  const margin = marginOf(question, a, b);
  if (isNotEvaluated(margin)) return { p: margin, at: () => undecided(question, margin) };
  return afterSteps(groups.steps, { p: margin.p, at: (level) => atLevel(question, margin, a, b, level) });
}

/** Between which ends a difference must lie, either of them open, and how that is said. */
export function askedMargin({ tool, ...question }: MarginQuestion): Pick<Margin, 'low' | 'high' | 'words'> {
  if (tool.kind === 'equivalence') {
    const [low, high] = tool.margin;
    return { low, high, words: `by less than the margin of ${inUnit(low, question)} to ${inUnit(high, question)}` };
  }
  const worse = tool.better === 'higher' ? 'below' : 'above';
  return {
    low: tool.better === 'higher' ? -tool.margin : Number.NEGATIVE_INFINITY,
    high: tool.better === 'higher' ? Number.POSITIVE_INFINITY : tool.margin,
    words: `by less than the margin of ${inUnit(tool.margin, question)} where they lie ${worse}`,
  };
}

function marginOf(question: MarginQuestion, a: number[], b: number[]): Margin | NotEvaluated {
  const { tool } = question;
  const asked = askedMargin(question);
  if (tool.kind === 'equivalence') {
    const found = equivalence(a, b, tool.margin, 0.9);
    if (isNotEvaluated(found)) return found;
    return {
      ...asked,
      p: Math.max(found.pLower, found.pUpper),
      numbers: {
        'p above the lower margin': found.pLower,
        'p below the upper margin': found.pUpper,
        'degrees of freedom': found.df,
      },
      source: 'Schuirmann (1987), J. Pharmacokinet. Biopharm. 15, 657-680',
    };
  }
  const found = nonInferiority(a, b, { ...tool, confidence: 0.95 });
  if (isNotEvaluated(found)) return found;
  return {
    ...asked,
    p: found.p,
    numbers: { 'degrees of freedom': found.df },
    source: 'Blackwelder (1982), Control. Clin. Trials 3, 345-353',
  };
}

/** How it is said that a difference is shown to lie within the margin, beyond it, or neither. */
export function marginSentence(
  { declared, names, reference, items }: MarginQuestion,
  within: string,
  finding: ComparisonLevel,
  numbers: string,
): string {
  const groups = `${names.items} ${sizeOf(items)} and ${names.reference} ${sizeOf(reference)}`;
  switch (finding) {
    case 'D':
      return `${declared.title}: ${groups} are shown to differ ${within} (${numbers}).`;
    case 'B':
      return `${declared.title}: ${groups} differ by more than the margin; they are shown not to differ ${within} (${numbers}).`;
    default:
      return `${declared.title}: inconclusive; ${groups} are not shown to differ ${within} (${numbers}).`;
  }
}

function atLevel(question: MarginQuestion, margin: Margin, a: number[], b: number[], level: number): AtLevel {
  const { items } = question;
  // The tests are one-sided at the level, so that the limits that speak with them stand at twice it.
  const confidence = 1 - Math.min(0.999, 2 * level);
  const tested = welch(a, b, confidence);
  if (isNotEvaluated(tested)) return undecided(question, tested);
  const { difference, limits } = tested;
  const shown = reaches(margin.p, level);
  const beyond = limits[0] > margin.high || limits[1] < margin.low;
  const finding: ComparisonLevel = shown ? 'D' : beyond ? 'B' : 'C';
  const numbers = `difference ${inUnit(difference, question)}, ${confidenceAt(2 * level)} limits ${inUnit(limits[0], question, [margin.low])} to ${inUnit(limits[1], question, [margin.high])}, p = ${chance(margin.p)}`;
  const sentence = marginSentence(question, margin.words, finding, numbers);
  return {
    effect: { difference, limits },
    finding,
    sentence,
    each: items.map(({ specimen }) => ({ specimen, level: finding, sentence })),
    steps: [
      {
        question: 'Is the difference surely within the margin declared?',
        numbers: {
          difference,
          'lower limit': limits[0],
          'upper limit': limits[1],
          p: margin.p,
          level,
          ...margin.numbers,
          ...(Number.isFinite(margin.low) ? { 'lower margin': margin.low } : {}),
          ...(Number.isFinite(margin.high) ? { 'upper margin': margin.high } : {}),
        },
        answer: sentence,
        formula: 'one-sided Welch tests against the margin; limits two-sided at 1 - 2 level',
        source: margin.source,
      },
    ],
  };
}
