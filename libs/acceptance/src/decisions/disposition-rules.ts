import {
  type Blocker,
  type ConcessionState,
  type LimitRef,
  type LotResult,
  limitName,
  type OutcomeOffered,
  type RunJudgement,
} from '@breakbook/lab';
import { listed } from '../words/index.js';
import { failuresOf } from './failures.js';

/** What stands around a lot, as far as it keeps the lot from being disposed of. */
export interface CaseOfLot {
  evaluation: { number: number; outcome: LotResult['outcome']; sentence: string } | undefined;
  /** Does that evaluation rest on the records as they are now? */
  upToDate: boolean;
  runs: readonly { run: string; validity: string; reviewed: boolean; unplanned: boolean; authorised: boolean }[];
  openNonconformities: readonly number[];
  openSafetyFlags: readonly number[];
}

/** What must be done before anybody decides about this lot? Empty where nothing must. */
export function blockersOf({ evaluation, upToDate, runs, openNonconformities, openSafetyFlags }: CaseOfLot): Blocker[] {
  const undecided = runs.filter(({ validity }) => validity === 'not decided').map(({ run }) => run);
  const decided = runs.filter(({ validity }) => validity !== 'not decided' && validity !== 'void');
  const unreviewed = decided.filter(({ reviewed }) => !reviewed).map(({ run }) => run);
  const unasked = runs.filter(({ unplanned, authorised }) => unplanned && !authorised).map(({ run }) => run);
  return [
    ...(evaluation === undefined
      ? [{ what: 'The lot was never evaluated.', action: 'Have it evaluated.' }]
      : [
          ...(evaluation.outcome === 'undecided'
            ? [
                {
                  what: `Evaluation ${evaluation.number} is undecided: ${evaluation.sentence}`,
                  action: 'Make the runs that the plan still asks for, or revise the plan, and have the lot evaluated.',
                },
              ]
            : []),
          ...(upToDate
            ? []
            : [
                {
                  what: `Evaluation ${evaluation.number} does not rest on the records as they are now.`,
                  action: 'Have the lot evaluated again.',
                },
              ]),
        ]),
    ...(undecided.length > 0
      ? [
          {
            what: `The validity of ${named('run', undecided)} is not decided.`,
            action: 'Have it decided by somebody who did not record it.',
          },
        ]
      : []),
    ...(unreviewed.length > 0
      ? [
          {
            what: `${named('Run', unreviewed)} ${unreviewed.length === 1 ? 'is' : 'are'} not reviewed as they stand.`,
            action: 'Have somebody review them who did not record them.',
          },
        ]
      : []),
    ...(unasked.length > 0
      ? [
          {
            what: `Neither a stage of the plan nor an authorised retest covers ${named('run', unasked)}.`,
            action: 'Open a nonconformity for testing beyond the plan, or have the retest authorised with its ground.',
          },
        ]
      : []),
    ...(openNonconformities.length > 0
      ? [
          {
            what: `${openNonconformities.length === 1 ? 'Nonconformity' : 'Nonconformities'} ${listed(openNonconformities.map(String))} ${openNonconformities.length === 1 ? 'is' : 'are'} open.`,
            action: 'Have each closed by somebody who wrote nothing of it.',
          },
        ]
      : []),
    ...(openSafetyFlags.length > 0
      ? [
          {
            what: `Product-safety ${openSafetyFlags.length === 1 ? 'flag' : 'flags'} ${listed(openSafetyFlags.map(String))} ${openSafetyFlags.length === 1 ? 'is' : 'are'} open.`,
            action: 'Have each closed, with what was decided, by somebody who wrote nothing in it.',
          },
        ]
      : []),
  ];
}

/** A concession as far as it bears on an outcome. */
export interface GivenConcession {
  number: number;
  state: ConcessionState;
  expired: boolean;
  limit?: LimitRef | undefined;
}

/**
 * Which outcomes can this lot be given? A failed external limit in the claimed use leaves only "not accepted", whatever
 * was asked for or granted; a failed internal one needs a concession in force for its limit, and two deciders.
 */
export function outcomesOf(
  result: LotResult,
  judgements: readonly RunJudgement[],
  concessions: readonly GivenConcession[],
): OutcomeOffered[] {
  const failures = failuresOf(result, judgements);
  const external = failures.filter((one) => one.external);
  const inForce = concessions.filter(({ state, expired }) => state === 'granted' && !expired);
  const uncovered = failures.filter(
    ({ limit }) => !inForce.some((one) => one.limit !== undefined && limitName(one.limit) === limitName(limit)),
  );
  const limits = (some: typeof failures) => listed(some.map(({ limit }) => limitName(limit)));
  const accepted =
    failures.length > 0
      ? `something of the lot does not conform to ${limits(failures)}`
      : result.outcome === 'meets the plan'
        ? ''
        : 'the lot does not meet the plan';
  const onConcession =
    failures.length === 0
      ? 'nothing of the lot fails, so there is nothing to concede'
      : external.length > 0
        ? `${limits(external)} comes from outside; a failed external limit is never conceded in the claimed use`
        : uncovered.length > 0
          ? `no concession in force covers ${limits(uncovered)}`
          : '';
  return [
    { outcome: 'accepted', possible: accepted === '', because: accepted, deciders: 1 },
    { outcome: 'accepted on concession', possible: onConcession === '', because: onConcession, deciders: 2 },
    { outcome: 'not accepted', possible: true, because: '', deciders: 1 },
  ];
}

function named(noun: string, runs: readonly string[]): string {
  return `${noun}${runs.length === 1 ? '' : 's'} ${listed(runs)}`;
}
