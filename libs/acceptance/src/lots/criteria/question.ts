import {
  type Criterion,
  type CriterionResult,
  type EarlierSample,
  isExternal,
  type Limit,
  type Lot,
  type Method,
  type Plan,
  type Step,
  type Verdict,
} from '@breakbook/lab';
import { limitIn } from '../../limits/limit-in-unit.js';
import { differs } from '../../runs/judge-run.js';
import { counted, criterionStatement, type Population } from '../../words/index.js';
import type { Claim, JudgedRun } from '../claim.js';
import { type Look, plannedAt } from '../look.js';
import { type ClaimSample, sampleOf } from '../samples.js';

/** One criterion with everything its answer rests on. */
export interface Question<C extends Criterion = Criterion> {
  criterion: C;
  limit: Limit;
  plan: Plan;
  lot: Lot;
  method: Method;
  claim: Claim;
  look: Look;
  /** What earlier lots gave of this line, the latest first. */
  earlier: readonly EarlierSample[];
}

/** What an answer adds to the criterion it answers. */
export type Answer = Pick<CriterionResult, 'outcome' | 'numbers' | 'steps'> &
  Partial<Pick<CriterionResult, 'bound' | 'boundAllModes' | 'pooled' | 'because' | 'possibleIf'>>;

/** The result of a criterion, from the question and its answer. */
export function answered(question: Question, answer: Answer): CriterionResult {
  const { criterion, limit, plan } = question;
  const { unit, lower, upper } = limitOf(question);
  return {
    criterion: criterion.criterion,
    kind: criterion.kind,
    statement: criterionStatement(criterion, limit, populationOf(criterion, plan)),
    outcome: answer.outcome,
    limit: criterion.limit,
    external: isExternal(limit),
    unit,
    limitValue: (lower ?? upper) as number,
    numbers: { ...answer.numbers, ...(lower !== undefined && upper !== undefined ? { 'upper limit': upper } : {}) },
    ...(answer.bound ? { bound: answer.bound } : {}),
    ...(answer.boundAllModes ? { boundAllModes: answer.boundAllModes } : {}),
    ...(answer.pooled ? { pooled: answer.pooled } : {}),
    ...(answer.because === undefined ? {} : { because: answer.because }),
    ...(answer.possibleIf === undefined ? {} : { possibleIf: answer.possibleIf }),
    steps: answer.steps,
  };
}

/**
 * What the claim of a criterion speaks of. A bound from a fitted distribution speaks of the process that made the lot:
 * only counts and order statistics have a form for a lot of so many units.
 */
export function populationOf(criterion: Criterion, plan: Plan): Population {
  return isFitted(criterion) ? 'process' : plan.claim.population;
}

function isFitted(criterion: Criterion): boolean {
  switch (criterion.kind) {
    case 'tolerance bound':
      return criterion.distribution !== 'distribution-free';
    case 'zero failures':
      return criterion.raised !== undefined;
    case 'every specimen':
    case 'failures at most':
      return false;
    case 'response energy':
    case 'mean':
      return true;
  }
}

/** The number of units a claim about this lot alone is drawn from; undefined for a process. */
export function lotSizeOf({ criterion, plan, lot }: Question): number | undefined {
  return populationOf(criterion, plan) === 'lot' ? lot.size : undefined;
}

/** The limit in the unit in which the method gives its characteristic. */
export function limitOf({ limit, method }: Pick<Question, 'limit' | 'method'>): {
  unit: string;
  lower?: number;
  upper?: number;
} {
  const characteristic = method.characteristics.find((one) => one.characteristic === limit.characteristic);
  const unit = limit.bound === 'absent' ? limit.unit : (characteristic?.unit ?? limit.unit);
  return { unit, ...limitIn(limit, unit, differs(method, limit)) };
}

export function samplesFor({ claim, limit }: Question): ClaimSample {
  return sampleOf(claim.runs, limit.characteristic);
}

/** The verdict of one run of the claim on the criterion's limit. */
export function verdictOn({ limit }: Question, { judgement }: JudgedRun): Verdict | undefined {
  return judgement.verdicts.find((one) => one.limit.limit === limit.limit && one.limit.revision === limit.revision);
}

/**
 * By how much more than the limit a run must hold to be accepted: nothing but where the rule is guarded, and undefined
 * where it is and no uncertainty is stated.
 */
export function guardBandOf(question: Question, run: JudgedRun): number | undefined {
  if (question.limit.decisionRule.rule !== 'guarded') return 0;
  const verdict = verdictOn(question, run);
  return verdict?.uncertainty && verdict.guardBand;
}

/** The runs of the claim by what their verdict on the criterion's limit says. */
export function byVerdict(question: Question): { conforming: JudgedRun[]; failing: JudgedRun[]; open: JudgedRun[] } {
  const sorted = { conforming: [] as JudgedRun[], failing: [] as JudgedRun[], open: [] as JudgedRun[] };
  for (const run of question.claim.runs) {
    const outcome = verdictOn(question, run)?.outcome;
    if (outcome === 'conforms' || outcome === 'conforms conditionally') sorted.conforming.push(run);
    else if (outcome === undefined || outcome === 'not evaluated') sorted.open.push(run);
    else sorted.failing.push(run);
  }
  return sorted;
}

/** Why some of these runs have no verdict, the first in full. */
export function whyOpen(question: Question, open: readonly JudgedRun[]): { because: string; possibleIf: string } {
  const [first] = open;
  const verdict = first && verdictOn(question, first);
  const others = open.length > 1 ? `, and ${counted(open.length - 1, 'other specimen')} likewise` : '';
  return {
    because: `specimen ${first?.run.specimen ?? ''} has no verdict: ${verdict?.because ?? 'none was given'}${others}`,
    possibleIf: verdict?.possibleIf ?? 'the run is judged',
  };
}

/** Why there is no sample where a run of the claim gives no value, the first in full. */
export function whyMissing({ missing }: ClaimSample): { because: string; possibleIf: string } | undefined {
  const [first] = missing;
  return (
    first && { because: `run ${first.run} of the claim gives no value: ${first.because}`, possibleIf: first.possibleIf }
  );
}

/** Why a look that settles nothing is no end: another stage was declared before the test. */
export function whyNextStage({ look }: Question, seen: string): { because: string; possibleIf: string } {
  const adds = (look.sizes[look.stage] as number) - plannedAt(look);
  return {
    because: `${seen}; stage ${look.stage + 1} of ${look.sizes.length} was declared for this`,
    possibleIf: `${counted(adds, 'more valid run')} of stage ${look.stage + 1} can be made`,
  };
}

/** Why nothing can be said before the planned number is complete. */
export function whyNotYet({ claim }: Question): { because: string; possibleIf: string } {
  const toMake = claim.planned - claim.runs.length - claim.waiting;
  const ways = [
    ...(claim.waiting > 0 ? [`${counted(claim.waiting, 'run')} recorded already can be read and decided`] : []),
    ...(toMake > 0 ? [`${counted(toMake, 'more valid run')} on specimens drawn at random can be made`] : []),
  ];
  return {
    because: `${claim.runs.length} of ${claim.planned} planned valid runs make the claim`,
    possibleIf: ways.join(' and '),
  };
}

export function claimStep({ claim }: Question): Step {
  return {
    question: 'Which runs make the claim?',
    numbers: { planned: claim.planned, 'in the claim': claim.runs.length, recorded: claim.entries.length },
    answer: `${claim.runs.length} of ${claim.planned} planned: valid runs on specimens drawn at random and not loaded before, in the order recorded.`,
  };
}
