import { type Limit, type LotResult, limitName, type Run, type Verdict } from '@breakbook/lab';
import { isFailed } from '../decisions/failures.js';
import { counted, listed, theLimit } from '../words/index.js';
import type { JudgedRun, UnreadRun } from './claim.js';
import { populationOf } from './criteria/question.js';
import type { JudgedLine } from './judge-line.js';
import type { LotToJudge } from './judge-lot.js';
import { sampleOf } from './samples.js';

/**
 * What must a reader know beside the numbers? Facts that no outcome shows by itself: specimens left out, runs that are
 * invalid, modes told apart, external limits failed inside or outside the claim, limits not yet confirmed.
 */
export function notesOn(given: LotToJudge, lines: readonly JudgedLine[]): LotResult['notes'] {
  return [
    ...externalFailures(given),
    ...failuresOutsideClaim(given, lines),
    ...unread(given.runs),
    ...invalid(given.runs),
    ...deviations(given.runs),
    ...notAtRandom(given),
    ...beyondPlan(lines),
    ...modesToldApart(lines),
    ...processBounds(given),
    ...sampling(given),
    ...unconfirmed(given),
  ];
}

function failedVerdicts(one: JudgedRun): Verdict[] {
  return one.judgement.verdicts.filter(isFailed);
}

function externalFailures({ runs, limits }: LotToJudge): string[] {
  const failed = new Map<string, { limit: Limit; specimens: string[] }>();
  for (const one of runs.filter(isJudged))
    for (const verdict of failedVerdicts(one).filter(({ external }) => external)) {
      const limit = limitOf(verdict, limits);
      if (!limit) continue;
      const entry = failed.get(limitName(limit)) ?? { limit, specimens: [] };
      entry.specimens.push(one.run.specimen);
      failed.set(limitName(limit), entry);
    }
  return [...failed.values()].map(
    ({ limit, specimens }) =>
      `External limit failed: ${counted(specimens.length, 'specimen')} (${listed(specimens)}) ${specimens.length === 1 ? 'does' : 'do'} not conform to ${theLimit(limit)}, basis ${limit.basis}. A failed external limit is never conceded in the claimed use.`,
  );
}

/** A valid failure stands, even where it makes no claim. */
function failuresOutsideClaim({ runs, limits }: LotToJudge, lines: readonly JudgedLine[]): string[] {
  const claimed = new Set(lines.flatMap(({ claim }) => claim.runs.map(({ run }) => run.run)));
  return runs
    .filter(isJudged)
    .filter(({ run }) => !claimed.has(run.run))
    .flatMap((one) =>
      failedVerdicts(one).map((verdict) => {
        const limit = limitOf(verdict, limits);
        const words = limit ? theLimit(limit) : limitName(verdict.limit);
        return `Run ${one.run.run} (specimen ${one.run.specimen}) is valid and does not conform to ${words}, but makes no claim; the failure stands and must be dealt with.`;
      }),
    );
}

function unread(runs: LotToJudge['runs']): string[] {
  return runs.flatMap((one) => {
    if (isJudged(one)) return [];
    const [first] = one.unread;
    return [
      `Run ${one.run.run} (specimen ${one.run.specimen}) is not judged: its file was refused and is kept unread.${first ? ` ${first.detail}` : ''}`,
    ];
  });
}

function invalid(runs: LotToJudge['runs']): string[] {
  const found = runs.filter(({ run }) => run.validity?.validity === 'invalid');
  if (found.length === 0) return [];
  const named = found.map(({ run }) => `${run.run} (${run.validity?.reason ?? 'no reason given'})`);
  return [
    `${found.length} of ${counted(runs.length, 'run')} ${found.length === 1 ? 'is' : 'are'} invalid: ${listed(named)}.`,
  ];
}

function deviations(runs: LotToJudge['runs']): string[] {
  const found = runs.filter(({ run }) => run.validity?.validity === 'valid with deviation');
  if (found.length === 0) return [];
  return [`Valid with deviation, and counted: ${listed(found.map(({ run }) => deviationOf(run)))}.`];
}

function deviationOf({ run, validity, deviations: recorded }: Run): string {
  const why = validity?.note ?? recorded[0];
  return why === undefined ? run : `${run} (${why})`;
}

function notAtRandom({ specimens, runs }: LotToJudge): string[] {
  const tested = new Set(runs.map(({ run }) => run.specimen));
  const picked = specimens.filter(({ specimen, origin }) => origin !== 'drawn at random' && tested.has(specimen));
  if (picked.length === 0) return [];
  const named = picked.map(({ specimen, origin }) => `${specimen} (${origin})`);
  return [`Not drawn at random, shown and left out of every claim: ${listed(named)}.`];
}

function beyondPlan(lines: readonly JudgedLine[]): string[] {
  return lines.flatMap(({ result, claim: { beyond } }) =>
    beyond.length === 0
      ? []
      : [
          `Line ${result.line}: ${counted(beyond.length, 'run')} beyond the planned number (${listed(beyond)}), shown and left out: testing on until a bound looks good would accept bad lots too often.`,
        ],
  );
}

function modesToldApart(lines: readonly JudgedLine[]): string[] {
  return lines.flatMap(({ result, claim }) => {
    const { otherModes } = sampleOf(claim.runs, result.characteristic);
    const cautious = result.entries.filter(({ inClaim, result: one }) => inClaim && one?.cautious);
    return [
      ...(otherModes.length > 0
        ? [
            `Line ${result.line}: other modes (${listed(otherModes)}) on sound parts are counted as "at least"; this assumes that the modes act independently.${result.criteria.some((one) => one.boundAllModes) ? ' The bound with every mode counted as a failure stands beside the claim.' : ''}`,
          ]
        : []),
      ...(cautious.length > 0
        ? [
            `Line ${result.line}: counted as failures of the part because it was not found sound: ${listed(cautious.map(({ run }) => run))}.`,
          ]
        : []),
    ];
  });
}

function processBounds({ plan, lot }: LotToJudge): string[] {
  if (plan.claim.population !== 'lot') return [];
  return plan.lines.flatMap(({ criteria }) =>
    criteria
      .filter((criterion) => populationOf(criterion, plan) === 'process')
      .map(
        ({ criterion }) =>
          `Criterion ${criterion}: a bound from a fitted distribution speaks of the process that made lot ${lot.lot}; that the lot has only ${lot.size} units does not enter.`,
      ),
  );
}

function sampling({ lot }: LotToJudge): string[] {
  return lot.sampling
    ? []
    : [
        'The lab did not draw the specimens: results apply to the sample as received, and that it was drawn at random is not known by the lab.',
      ];
}

function unconfirmed({ plan, limits }: LotToJudge): string[] {
  const used = limits.filter(
    (limit) =>
      limit.standing === 'example to be confirmed' &&
      plan.lines.some((line) =>
        line.limits.some((ref) => ref.limit === limit.limit && ref.revision === limit.revision),
      ),
  );
  if (used.length === 0) return [];
  return [`Examples the lab has yet to confirm against its own copy of the source: ${listed(used.map(limitName))}.`];
}

function limitOf(verdict: Verdict, limits: readonly Limit[]): Limit | undefined {
  return limits.find((one) => one.limit === verdict.limit.limit && one.revision === verdict.limit.revision);
}

function isJudged(one: JudgedRun | UnreadRun): one is JudgedRun {
  return 'judgement' in one;
}
