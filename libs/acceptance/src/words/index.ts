/** Verdicts and claims as sentences, made from named fields and nowhere else. */
export { limitInWords, rangeInWords, ruleInWords } from './limit-in-words.js';
export { asDeclared, boundInWords, valueInWords, withUnit } from './numbers.js';
export { percent } from './percent.js';
export { capital, type VerdictFields, verdictSentence } from './verdict-sentence.js';
