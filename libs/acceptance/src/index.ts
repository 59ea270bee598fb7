/** Limits, verdicts and the judgement of lots. */
export { judgeValue, type ValueAndLimit } from './limits/judge-value.js';
export { judgeRun, type RunToJudge } from './runs/judge-run.js';
export {
  boundInWords,
  capital,
  limitInWords,
  percent,
  rangeInWords,
  ruleInWords,
  valueInWords,
  withUnit,
} from './words/index.js';
