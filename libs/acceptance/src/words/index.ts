/** Verdicts and claims as sentences, made from named fields and nowhere else. */

export {
  type BoundFields,
  boundSentence,
  criterionStatement,
  type Population,
  survivalSentence,
} from './claims.js';
export { counted, countedIn, listed } from './counted.js';
export {
  boundDesignSentence,
  countDesignSentence,
  raisedDesignSentence,
  stagedDesignSentence,
  staircaseDesignSentence,
} from './designs.js';
export { forecastSentence } from './forecast-sentence.js';
export { limitInWords, nameOfLimit, rangeInWords, ruleInWords, theLimit } from './limit-in-words.js';
export { lotSentence } from './lot-sentence.js';
export { boundInWords, valueInWords, withUnit } from './numbers.js';
export { outlierSentence } from './outlier-sentence.js';
export { chanceInWords, percent, shareInWords } from './percent.js';
export { planInWords } from './plan-in-words.js';
export { earlierInWords, pooledSentence, powerInWords, whetherPooled } from './pooled-sentence.js';
export { poolingInWords } from './pooling-in-words.js';
export {
  countRiskSentence,
  edgeRiskSentence,
  meanRiskSentence,
  planRiskSentence,
  togetherSentence,
} from './risks.js';
export { FORMS, type Form, NOUNS, type Noun, sayIn } from './say.js';
export { stageSentence } from './stage-sentence.js';
export { capital, type VerdictFields, verdictSentence } from './verdict-sentence.js';
