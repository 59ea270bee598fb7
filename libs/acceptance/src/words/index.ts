/** Verdicts and claims as sentences, made from named fields and nowhere else. */

export {
  type BoundFields,
  boundSentence,
  criterionStatement,
  type Population,
  survivalSentence,
} from './claims.js';
export { counted, listed } from './counted.js';
export {
  boundDesignSentence,
  countDesignSentence,
  raisedDesignSentence,
  stagedDesignSentence,
  staircaseDesignSentence,
} from './designs.js';
export { limitInWords, rangeInWords, ruleInWords, theLimit } from './limit-in-words.js';
export { boundInWords, valueInWords, withUnit } from './numbers.js';
export { outlierSentence } from './outlier-sentence.js';
export { chanceInWords, percent, shareInWords } from './percent.js';
export { planInWords } from './plan-in-words.js';
export { earlierInWords, pooledSentence, powerInWords } from './pooled-sentence.js';
export { poolingInWords } from './pooling-in-words.js';
export {
  countRiskSentence,
  edgeRiskSentence,
  meanRiskSentence,
  planRiskSentence,
  togetherSentence,
} from './risks.js';
export { stageSentence } from './stage-sentence.js';
export { capital, type VerdictFields, verdictSentence } from './verdict-sentence.js';
