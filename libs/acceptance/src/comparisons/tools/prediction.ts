import { isNotEvaluated } from '@breakbook/lab';
import type { Ends } from '../ends.js';
import { confidenceAt, inUnit, mattersLine, measured, powerLine, sizeOf } from '../words.js';
import { freePrediction } from './free-prediction.js';
import { parametricPrediction } from './parametric-prediction.js';
import type { Bounds, Predicted, PredictionQuestion } from './predicted.js';
import { type AtLevel, reaches, type Tested, togetherOf, undecided, whyNotConsistent } from './tested.js';

/**
 * Do the items lie where future units of the reference's kind would? Each item, or their mean, against prediction bounds. One
 * that is known from one side only never counts as a difference by what it might be: "at least 900" lies below no bound, and
 * agrees only where 900 itself does.
 */
export function predictionTool(question: PredictionQuestion): Tested {
  const { tool } = question;
  const found = tool.distribution === 'distribution-free' ? freePrediction(question) : parametricPrediction(question);
  if (isNotEvaluated(found)) return { p: found, at: () => undecided(question, found) };
  return {
    p: found.p,
    ...(found.pError === undefined ? {} : { pError: found.pError }),
    at: (level) => comparedAt(question, found, level),
  };
}

function comparedAt(question: PredictionQuestion, found: Predicted, level: number): AtLevel {
  const { tool, items, reference } = question;
  const bounds = found.bounds(level);
  const smallest = found.smallest(level);
  const unlike = whyNotConsistent(question, smallest);
  const lines = boundLines(question, bounds, level);
  const power = powerLine(smallest, question, level);

  const keeps = wayWithin(bounds, lines);

  const judgedEach = items.map(({ specimen, value }, index): JudgedItem => {
    const at = tool.of === 'mean' ? 0 : index;
    const who =
      tool.of === 'mean' && items.length > 1
        ? `${question.declared.title}: the mean of the ${items.length} items, ${meanInWords(found.compared[0] as Ends, question)},`
        : `${question.declared.title} of item ${specimen}, ${measured(value, question, numbersOf(bounds))},`;
    const called = reaches(found.pOf[at] as number, level);
    const judged = judge(question, { ends: found.compared[at] as Ends, called, bounds, level, lines });
    if (judged.level === 'B')
      return {
        specimen,
        level: 'B',
        sentence: `${who} lies ${judged.words} of the reference ${sizeOf(reference)}.`,
        alike: judged.words.startsWith('below') ? 'below' : 'above',
      };
    if (judged.level === 'C')
      return {
        specimen,
        level: 'C',
        sentence: `${who} is inconclusive: ${judged.words}. ${power}`,
        alike: judged.words,
      };
    if (unlike)
      return {
        specimen,
        level: 'C',
        sentence: `${who} is inconclusive: it lies within the prediction bounds, but ${mattersLine(question, unlike, smallest)}.`,
        alike: unlike,
      };
    return {
      specimen,
      level: 'D',
      sentence: `${who} ${keeps.one} of the reference ${sizeOf(reference)}. ${power}`,
      alike: 'within',
    };
  });
  const each = judgedEach.map(({ alike: _, ...one }) => one);
  const finding = togetherOf(each.map((one) => one.level));
  return {
    bounds,
    smallestDifference: smallest,
    finding,
    sentence: whole(question, judgedEach, finding, { keeps, power }),
    each,
    steps: found.steps(level),
  };
}

/** What was found of one item. Items of one level that are `alike` are found so in the same way, by the same reason. */
type JudgedItem = AtLevel['each'][number] & { alike: string };

/** Whether one value, or the mean, is beyond a bound, surely within, or neither. */
function judge(
  question: PredictionQuestion,
  {
    ends,
    called,
    bounds: { lower, upper },
    level,
    lines,
  }: { ends: Ends; called: boolean; bounds: Bounds; level: number; lines: string },
): { level: 'B' | 'C' | 'D'; words: string } {
  const low = typeof lower === 'number' && ends.high < lower;
  const bound = low ? lower : upper;
  if (called && typeof bound === 'number') {
    const beside = [ends.low, ends.high].filter(Number.isFinite);
    return {
      level: 'B',
      words: `${low ? 'below' : 'above'} the ${confidenceAt(level)} prediction bound ${inUnit(bound, question, beside)}`,
    };
  }
  const none = [lower, upper].find(isNotEvaluated);
  if (none) return { level: 'C', words: none.notEvaluated.because };
  const within = (typeof lower !== 'number' || ends.low >= lower) && (typeof upper !== 'number' || ends.high <= upper);
  return within
    ? { level: 'D', words: '' }
    : { level: 'C', words: `what is known of it reaches to both sides of the ${lines}` };
}

/** All items in one sentence; where items were found otherwise from each other, a sentence for each way. */
function whole(
  question: PredictionQuestion,
  each: readonly JudgedItem[],
  finding: AtLevel['finding'],
  { keeps, power }: { keeps: WayWithin; power: string },
): string {
  const of = each.filter((one) => one.level === finding);
  const [first] = of;
  if (!first) return '';
  if (each.length === 1 || question.tool.of === 'mean') return first.sentence;
  if (finding === 'D')
    return `${question.declared.title}: ${keeps.all(each.length)} of the reference ${sizeOf(question.reference)}. ${power}`;
  return [...new Set(of.map(({ alike }) => alike))]
    .map((way) => {
      const [one, ...others] = of.filter(({ alike }) => alike === way);
      const same =
        others.length === 0 ? '' : ` The same is found of ${others.length} more of the ${each.length} items.`;
      return `${one?.sentence}${same}`;
    })
    .join(' ');
}

/** How it is said that items lie on the inner side of the bounds. */
interface WayWithin {
  one: string;
  /** Of all items that gave a value. */
  all: (items: number) => string;
}

function wayWithin({ lower, upper }: Bounds, lines: string): WayWithin {
  if (typeof lower === 'number' && typeof upper === 'number')
    return { one: `lies within the ${lines}`, all: (items) => `all ${items} items measured lie within the ${lines}` };
  const side = typeof lower === 'number' ? 'below' : 'above';
  return {
    one: `does not lie ${side} the ${lines}`,
    all: (items) => `none of the ${items} items measured lies ${side} the ${lines}`,
  };
}

/** `99 % prediction bound 1 410 kPa`, or both bounds, as they hold for every item together. */
function boundLines(question: PredictionQuestion, { lower, upper }: Bounds, level: number): string {
  const confidence = confidenceAt(level);
  if (typeof lower === 'number' && typeof upper === 'number')
    return `${confidence} prediction bounds ${inUnit(lower, question)} to ${inUnit(upper, question)}`;
  const bound = [lower, upper].find((one) => typeof one === 'number');
  return bound === undefined
    ? `${confidence} prediction bound`
    : `${confidence} prediction bound ${inUnit(bound, question)}`;
}

function numbersOf({ lower, upper }: Bounds): number[] {
  return [lower, upper].filter((bound) => typeof bound === 'number');
}

function meanInWords({ low, high }: Ends, question: PredictionQuestion): string {
  if (low === high) return inUnit(low, question);
  if (low === Number.NEGATIVE_INFINITY && high === Number.POSITIVE_INFINITY) return 'bounded on neither side';
  if (high === Number.POSITIVE_INFINITY) return `at least ${inUnit(low, question)}`;
  if (low === Number.NEGATIVE_INFINITY) return `at most ${inUnit(high, question)}`;
  return `between ${inUnit(low, question)} and ${inUnit(high, question)}`;
}
