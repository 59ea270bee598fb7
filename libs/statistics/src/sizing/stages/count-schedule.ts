import { binomialCdf } from '../../distributions/binomial.js';
import { hypergeometricCdf } from '../../distributions/hypergeometric.js';
import { requireCount } from '../../requirements.js';

/** One stage: how many specimens it adds, and the failures of all so far that are accepted, and that are rejected. */
export interface CountStage {
  adds: number;
  accept: number;
  reject: number;
}

/** What a schedule of counts comes to where a share of the population fails. */
export interface CountScheduleChance {
  /** That it is accepted. */
  acceptance: number;
  /** Specimens broken on average. */
  expected: number;
  /** That it is settled at each stage, one way or the other. */
  settledAt: number[];
}

/**
 * How likely does a schedule of counts accept, and how many specimens does it break, where a share of the population
 * fails? The number of failures is followed from stage to stage:
 *
 *     P_k(j) = sum over i of P_{k-1}(i) P(j - i failures among the specimens of stage k),     i not settled before
 *
 * binomial for a process; hypergeometric for a lot of N units, of which round(share N) fail. A count from `accept` down
 * accepts, from `reject` up rejects, and between them the next stage is made; the last stage leaves nothing between.
 *
 * Source: Dodge and Romig (1929), Bell Syst. Tech. J. 8, 613-631 (double sampling); ISO 2859-1:1999, 11.1.3.
 */
export function countScheduleChance(
  stages: readonly CountStage[],
  share: number,
  { lotSize }: { lotSize?: number | undefined } = {},
): CountScheduleChance {
  requireSchedule(stages, lotSize);
  if (!(share >= 0 && share <= 1))
    throw new RangeError(`countScheduleChance: a share lies within 0 and 1; got ${share}.`);
  const marked = lotSize === undefined ? 0 : Math.round(share * lotSize);
  let open = new Map([[0, 1]]);
  let [drawn, acceptance, expected] = [0, 0, 0];
  const settledAt: number[] = [];
  for (const { adds, accept, reject } of stages) {
    const reached = [...open.values()].reduce((sum, one) => sum + one, 0);
    expected += reached * adds;
    const next = new Map<number, number>();
    let settled = 0;
    for (const [failed, weight] of open)
      for (let more = 0; more <= adds; more++) {
        const chance =
          weight *
          (lotSize === undefined
            ? exactly(more, (count) => binomialCdf(count, adds, share))
            : exactly(more, (count) =>
                hypergeometricCdf(count, { size: lotSize - drawn, marked: marked - failed, drawn: adds }),
              ));
        if (chance <= 0) continue;
        const all = failed + more;
        if (all <= accept) acceptance += chance;
        if (all <= accept || all >= reject) settled += chance;
        else next.set(all, (next.get(all) ?? 0) + chance);
      }
    settledAt.push(settled);
    drawn += adds;
    open = next;
  }
  return { acceptance: Math.min(1, acceptance), expected, settledAt };
}

function exactly(count: number, below: (count: number) => number): number {
  return below(count) - (count === 0 ? 0 : below(count - 1));
}

function requireSchedule(stages: readonly CountStage[], lotSize: number | undefined): void {
  if (stages.length === 0) throw new RangeError('countScheduleChance: a schedule has at least one stage.');
  stages.forEach(({ adds, accept, reject }, index) => {
    requireCount('countScheduleChance', { [`stages[${index}].adds`]: adds }, 1);
    requireCount('countScheduleChance', { [`stages[${index}].accept`]: accept });
    if (reject <= accept)
      throw new RangeError(`countScheduleChance: stages[${index}] accepts ${accept} and rejects ${reject}.`);
  });
  const last = stages.at(-1) as CountStage;
  if (last.reject !== last.accept + 1)
    throw new RangeError(
      'countScheduleChance: the last stage leaves a number of failures neither accepted nor rejected.',
    );
  const all = stages.reduce((sum, { adds }) => sum + adds, 0);
  if (lotSize !== undefined && all > lotSize)
    throw new RangeError(`countScheduleChance: ${all} specimens cannot come from a lot of ${lotSize}.`);
}
