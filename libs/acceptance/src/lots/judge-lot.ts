import {
  type EarlierSample,
  type Limit,
  type Lot,
  type LotOutcome,
  type LotResult,
  type Method,
  type Plan,
  SOFTWARE,
  type Specimen,
} from '@breakbook/lab';
import { lotSentence } from '../words/index.js';
import type { JudgedRun, UnreadRun } from './claim.js';
import { type JudgedLine, judgeLine } from './judge-line.js';
import { notesOn } from './notes.js';

export interface LotToJudge {
  plan: Plan;
  lot: Lot;
  methods: readonly Method[];
  limits: readonly Limit[];
  specimens: readonly Specimen[];
  /** All runs of the lot, in the order recorded; those whose files were refused keep their place. */
  runs: readonly (JudgedRun | UnreadRun)[];
  /** What earlier lots gave, for a plan that pools them. */
  earlier?: readonly EarlierSample[] | undefined;
}

/**
 * Does the lot meet the plan? Each plan line's claim is made by its valid runs on specimens drawn at random, as many as
 * planned; all other runs are listed with the reason. All lines must be met; one that is not met settles it; anything
 * not evaluated or not yet decidable leaves it undecided.
 */
export function judgeLot(given: LotToJudge): LotResult {
  const { plan, lot } = given;
  const lines = plan.lines.map((line) => judgeLine({ ...given, line }));
  const outcome = together(lines);
  return {
    lot: lot.lot,
    plan: { plan: plan.plan, revision: plan.revision },
    outcome,
    sentence: lotSentence({
      lot: lot.lot,
      plan,
      outcome,
      criteria: lines.flatMap(({ result }) => result.criteria),
    }),
    lines: lines.map(({ result }) => result),
    notes: notesOn(given, lines),
    software: SOFTWARE,
  };
}

function together(lines: readonly JudgedLine[]): LotOutcome {
  const outcomes = lines.map(({ result }) => result.outcome);
  if (outcomes.includes('does not meet the plan')) return 'does not meet the plan';
  return outcomes.every((outcome) => outcome === 'meets the plan') ? 'meets the plan' : 'undecided';
}
