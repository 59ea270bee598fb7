/** Limits, verdicts and the judgement of lots. */
export { caseOfLots, comparedRun, type EvaluatedLot } from './comparisons/case-of-lots.js';
export { compareCase } from './comparisons/compare-case.js';
export { custodyGaps } from './comparisons/custody-gaps.js';
export { type LimitBeside, limitsBeside } from './comparisons/limits-beside.js';
export { confidenceAt } from './comparisons/words.js';
export { type WordNotToClaim, wordsNotToClaim } from './comparisons/words-not-to-claim.js';
export { attemptsOf } from './decisions/attempts.js';
export { type ConcessionToCheck, concessionProblem } from './decisions/concession-problem.js';
export { type CaseOfDisposal, disposalObstacles } from './decisions/disposal-obstacles.js';
export { blockersOf, type CaseOfLot, type GivenConcession, outcomesOf } from './decisions/disposition-rules.js';
export { type Failure, failuresOf, isFailed } from './decisions/failures.js';
export { judgeValue, type ValueAndLimit } from './limits/judge-value.js';
export { checkBundle } from './lots/check-bundle.js';
export { daysIn } from './lots/checks/day-in-zone.js';
export { builtByDrawer } from './lots/checks/plan.js';
export { type PlanRecords, planLineProblems } from './lots/checks/plan-line.js';
export type { Claim, JudgedRun, UnreadRun } from './lots/claim.js';
export { claimEntries } from './lots/claim-entries.js';
export { populationOf } from './lots/criteria/question.js';
export { type EvaluatedEarlier, earlierSamplesOf } from './lots/earlier-samples.js';
export { type EvaluationProgress, evaluateLot, type LotEvaluation } from './lots/evaluate-lot.js';
export { type EvaluatedRun, evaluateRun, type FileBytes } from './lots/evaluate-run.js';
export { judgeLot, type LotToJudge } from './lots/judge-lot.js';
export { judgedFromReadings, type KeptReadings } from './lots/judged-from-readings.js';
export type { WhatIfChange } from './lots/what-if/changed-bundle.js';
export { type WhatIf, type WhatRunsSaid, whatIf } from './lots/what-if/what-if.js';
export { planDesigns } from './planning/plan-designs.js';
export { type PlanToWeigh, planRisks } from './planning/risks/plan-risks.js';
export { planFrom, planTemplates } from './planning/templates/fill-template.js';
export { whatCanShow } from './planning/what-can-show.js';
export { judgeRun, type RunToJudge } from './runs/judge-run.js';
export {
  type BoundFields,
  boundInWords,
  boundSentence,
  capital,
  chanceInWords,
  counted,
  countedIn,
  countRiskSentence,
  criterionStatement,
  edgeRiskSentence,
  FORMS,
  type Form,
  limitInWords,
  listed,
  lotSentence,
  meanRiskSentence,
  NOUNS,
  type Noun,
  nameOfLimit,
  outlierSentence,
  percent,
  planInWords,
  planRiskSentence,
  pooledSentence,
  poolingInWords,
  rangeInWords,
  ruleInWords,
  sayIn,
  shareInWords,
  stageSentence,
  togetherSentence,
  valueInWords,
  withUnit,
} from './words/index.js';
