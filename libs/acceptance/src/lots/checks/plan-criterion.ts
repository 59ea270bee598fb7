import {
  type Criterion,
  isNotEvaluated,
  type Limit,
  limitName,
  type Method,
  type Plan,
  type PlanLine,
  type Problem,
} from '@breakbook/lab';
import { orderStatisticRank, weibullDemonstrationSize, zeroFailureSize } from '@breakbook/statistics';
import { counted } from '../../words/index.js';
import { lookConfidence, looksOf } from '../look.js';
import { problemAt } from './records.js';

/**
 * Can this criterion be met at all, by this line's specimens, against this limit? A plan that cannot say what it claims
 * is found out before wheels are broken for it.
 */
export function criterionProblems(
  plan: Plan,
  line: PlanLine,
  criterion: Criterion,
  method: Method,
  limit: Limit | undefined,
  at: string,
): Problem[] {
  return [
    ...(limit ? kindOfLimit(criterion, limit, at) : []),
    ...(claims(criterion) ? tooFewForMethod(line, criterion, method, at) : []),
    ...tooFewForClaim(plan, line, criterion, at),
    ...unknownModes(criterion, method, at),
  ];
}

function claims(criterion: Criterion): boolean {
  return 'confidence' in criterion;
}

/** A bound stands against a limit that it can clear. */
function kindOfLimit(criterion: Criterion, limit: Limit, at: string): Problem[] {
  const { kind } = criterion;
  const lower =
    kind === 'tolerance bound' || kind === 'response energy' || (kind === 'zero failures' && criterion.raised);
  if (lower && limit.bound !== 'at least')
    return [
      problemAt(
        'state.conflict',
        `${at}/limit`,
        `criterion ${criterion.criterion} sets a lower bound against ${limitName(limit)}, which is "${limit.bound}". Name an "at least" limit.`,
        limitName(limit),
      ),
    ];
  if (kind === 'mean' && limit.bound === 'absent')
    return [
      problemAt(
        'state.conflict',
        `${at}/limit`,
        `criterion ${criterion.criterion} is about a mean, and ${limitName(limit)} is about signs that are found or not. Name a limit on a measured characteristic, or count failures instead.`,
        limitName(limit),
      ),
    ];
  return [];
}

function tooFewForMethod(line: PlanLine, criterion: Criterion, method: Method, at: string): Problem[] {
  const first = line.stages?.[0] ?? line.specimens;
  if (first >= method.minimumSpecimens) return [];
  return [
    problemAt(
      'state.conflict',
      at,
      `criterion ${criterion.criterion} is judged on ${counted(first, 'specimen')}${line.stages ? ' after the first stage' : ''}, and ${method.method} rev. ${method.revision} prints no bound on fewer than ${method.minimumSpecimens}. Plan at least ${method.minimumSpecimens}, or drop the claim of a confidence.`,
      String(first),
    ),
  ];
}

/** Where even the best outcome could not show what is claimed. */
function tooFewForClaim(plan: Plan, line: PlanLine, criterion: Criterion, at: string): Problem[] {
  const needed = neededFor(plan, line, criterion);
  if (needed === undefined || needed <= line.specimens) return [];
  return [
    problemAt(
      'state.conflict',
      at,
      `criterion ${criterion.criterion} needs ${counted(needed, 'specimen')} even if none fails, and line ${line.line} has ${line.specimens}. Plan ${needed}, or claim less.`,
      String(line.specimens),
    ),
  ];
}

function neededFor({ claim }: Plan, line: PlanLine, criterion: Criterion): number | undefined {
  if (criterion.kind === 'zero failures') {
    const { reliability, confidence, raised } = criterion;
    const size = raised
      ? weibullDemonstrationSize({ shape: raised.shape, reliability, confidence, loadRatio: raised.loadRatio })
      : zeroFailureSize({ reliability, confidence });
    // A lot of few units needs fewer, and how many it has is not known to the plan.
    return isNotEvaluated(size) || (!raised && claim.population === 'lot') ? undefined : size.n;
  }
  if (criterion.kind !== 'tolerance bound' || criterion.distribution !== 'distribution-free') return undefined;
  const { perStage } = lookConfidence({ sizes: (looksOf(line)[0] as { sizes: readonly number[] }).sizes }, criterion);
  const rank = orderStatisticRank({ n: line.specimens, coverage: criterion.coverage, confidence: perStage });
  if (!isNotEvaluated(rank)) return undefined;
  return Math.ceil(Math.log1p(-perStage) / Math.log(criterion.coverage));
}

function unknownModes(criterion: Criterion, method: Method, at: string): Problem[] {
  if (criterion.kind !== 'zero failures' || !criterion.raised) return [];
  const known = method.failureModes.map(({ code }) => code);
  return criterion.raised.modes.flatMap((mode, index) =>
    known.includes(mode)
      ? []
      : [
          {
            ...problemAt(
              'meta.unknown',
              `${at}/raised/modes/${index}`,
              `${mode} is no failure mode of method ${method.method} rev. ${method.revision}. It knows ${known.join(', ')}.`,
              mode,
            ),
            expected: known.join(', '),
          },
        ],
  );
}
