import { z } from 'zod';
import { LimitRef } from './limits.js';
import { ChannelName, FailureModeCode } from './methods.js';
import { schemeProblems } from './plan-scheme.js';
import { Day, Key, Line, Paragraph, Revision } from './text.js';

export const Distribution = z.enum(['normal', 'lognormal', 'weibull', 'distribution-free']);
export type Distribution = z.infer<typeof Distribution>;

/** A share that a claim states. People who mean 95 % and write 95 are told so. */
export const Share = z.number().refine(isShare, { error: notShare });

function isShare(share: number): boolean {
  return share > 0 && share < 1;
}

function notShare({ input }: { input?: unknown }): string {
  return typeof input === 'number' && input >= 1 && input < 100
    ? `must be a fraction: write ${input / 100} for ${input} %`
    : 'must be a fraction between 0 and 1, neither included';
}

/** How often at most a lot may be accepted wrongly where any one of several criteria is enough. */
const JointRisk = z
  .number({
    error: ({ input }) =>
      input === undefined
        ? 'Where any one criterion is enough, a lot that meets none of the claims has as many chances to be accepted as there are criteria. The joint risk says how often at most that may happen, as a fraction: the risks of the criteria, 1 - confidence of each, must add up to no more. Two criteria of 95 % confidence need "jointRisk": 0.1; or write {"rule": "all"}, and the lot must meet every one'
        : undefined,
  })
  .refine(isShare, { error: notShare });

/** How many failures a count may have when a stage is complete: up to `accept` it is met, from `reject` on it is not. */
export const CountLook = z
  .strictObject({ accept: z.number().int().min(0), reject: z.number().int().min(1) })
  .refine(({ accept, reject }) => accept < reject, {
    error: 'accepts a number of failures that it rejects; reject must be larger than accept',
    path: ['reject'],
  });

/**
 * A demonstration by specimens loaded to more than the limit: what they show at the limit rests on the shape of the
 * Weibull distribution, which is therefore named with its source, as low as is plausible.
 */
export const RaisedLoad = z.strictObject({
  /** The load of the test over the limit. */
  loadRatio: z
    .number()
    .gt(1, { error: 'must be above 1: the load of the test over the limit. Leave `raised` out to test at the limit' })
    .max(3),
  /** The lowest shape that is plausible. A shape too high makes the claim too bold. */
  shape: z.number().positive(),
  shapeSource: Paragraph,
  /** Shapes below it, at which the result is printed beside the claim. */
  lowerShapes: z.array(z.number().positive()).min(1),
  /** Failure modes known at the limit. Another one found at the raised load ends the demonstration. */
  modes: z.array(FailureModeCode).min(1),
});
export type RaisedLoad = z.infer<typeof RaisedLoad>;

/**
 * What must hold for the lot, declared before the first run. Confidence and coverage are fractions.
 */
export const Criterion = z.discriminatedUnion('kind', [
  /** Every specimen of the claim conforms to this limit. Claims no confidence. */
  z.strictObject({ kind: z.literal('every specimen'), criterion: Key, limit: LimitRef }),
  /** No more than `allowed` specimens of the claim fail this limit. Claims no confidence. */
  z.strictObject({
    kind: z.literal('failures at most'),
    criterion: Key,
    limit: LimitRef,
    allowed: z.number().int().min(0),
    /** For each stage of the line, over all specimens so far, such as none of 3, then one of 9. */
    looks: z.array(CountLook).min(2).optional(),
  }),
  /** At least `coverage` of the population holds the limit, with `confidence`: the lower tolerance bound clears it. */
  z.strictObject({
    kind: z.literal('tolerance bound'),
    criterion: Key,
    limit: LimitRef,
    distribution: Distribution,
    coverage: Share,
    confidence: Share,
  }),
  /** n specimens survive the limit and none fails: at least `reliability` of the population does, with `confidence`. */
  z.strictObject({
    kind: z.literal('zero failures'),
    criterion: Key,
    limit: LimitRef,
    reliability: Share,
    confidence: Share,
    raised: RaisedLoad.optional(),
  }),
  /**
   * The load at which `share` of the population breaks lies at or above the limit, with `confidence`, where each specimen
   * is struck once at one level: the median by a staircase or by levels, a low share only from levels spread beforehand.
   */
  z.strictObject({
    kind: z.literal('response energy'),
    criterion: Key,
    limit: LimitRef,
    share: Share,
    confidence: Share,
    /** The levels planned, in the unit of the limit; left out for a staircase. */
    levels: z.array(z.number().positive()).min(3).optional(),
    /** The step of the staircase, in the unit of the limit. */
    step: z.number().positive().optional(),
  }),
  /** The mean of the population lies within the limit, with `confidence`. */
  z.strictObject({ kind: z.literal('mean'), criterion: Key, limit: LimitRef, confidence: Share }),
]);
export type Criterion = z.infer<typeof Criterion>;
export type CriterionOf<K extends Criterion['kind']> = Extract<Criterion, { kind: K }>;

/** The confidence that a criterion claims; undefined where it claims none. */
export function confidenceOf(criterion: Criterion): number | undefined {
  return 'confidence' in criterion ? criterion.confidence : undefined;
}

export const PlanLine = z.strictObject({
  line: Key,
  title: Line,
  method: Key,
  methodRevision: Revision,
  /** Valid runs the plan asks for; fewer leave its claims "not yet decidable". */
  specimens: z.number().int().min(1),
  /**
   * A schedule declared beforehand: how many specimens each stage adds. Together they are `specimens`; a later stage is
   * made only where the earlier ones neither met nor failed the criteria.
   */
  stages: z.array(z.number().int().min(1)).min(2).max(5).optional(),
  /** Specimens drawn beside them: broken by nobody, and kept, or tested as witnesses beside the claim. */
  retained: z.number().int().min(0).optional(),
  witnesses: z.number().int().min(0).optional(),
  limits: z.array(LimitRef),
  criteria: z.array(Criterion).min(1),
  /** How the criteria combine; left out, all of them. Any of several needs the risk of all of them together. */
  combination: z
    .discriminatedUnion(
      'rule',
      [
        z.strictObject({ rule: z.literal('all') }),
        /** One of them is enough. The risks, 1 - confidence, of all together must stay within `jointRisk`. */
        z.strictObject({ rule: z.literal('any'), jointRisk: JointRisk }),
      ],
      {
        error:
          'must be {"rule": "all"}, or {"rule": "any", "jointRisk": ...}: whoever may choose among claims is wrong more often than each of them, so say how often at most',
      },
    )
    .optional(),
  /**
   * Lines of this plan whose surviving specimens may be run under this one, such as the static test after the fatigue
   * test. Left out, every run needs a specimen that no run has loaded.
   */
  survivorsOf: z.array(Key).min(1).optional(),
  /** The characteristic this line is about, for figures and lists. */
  characteristic: ChannelName,
});
export type PlanLine = z.infer<typeof PlanLine>;

/** Whether strengths of earlier lots enter a bound, declared with the test that must not tell the lots apart. */
export const Pooling = z.union([
  z.literal('none'),
  z.strictObject({
    rule: z.literal('earlier lots'),
    /** So many of the last lots at most that were tested by the same method revision. */
    lots: z.number().int().min(1).max(20),
    test: z.literal('k-sample Anderson-Darling'),
    /** Level of that test: lots are pooled where it does not tell them apart. */
    level: z.union([z.literal(0.25), z.literal(0.1), z.literal(0.05), z.literal(0.025), z.literal(0.01)]),
    /** A shift of the mean between lots, as a share of it, that would matter: the power to see it is printed. */
    shiftThatMatters: Share,
  }),
]);
export type Pooling = z.infer<typeof Pooling>;

/** One revision of a plan: what will be tested, how many, and what is claimed of which population. Frozen at first use. */
export const Plan = z
  .strictObject({
    plan: Key,
    revision: Revision,
    title: Line,
    product: Key,
    approvedBy: Key,
    approvedOn: Day,
    claim: z.strictObject({
      statement: Paragraph,
      use: Line,
      /** The process that made several lots, or the units of this lot alone. */
      population: z.enum(['process', 'lot']),
      /** How the declared modes enter: only the part's own failures count, other modes are "at least". */
      modeSet: Line,
      /** What is done with values known only from one side. */
      censoring: Line,
      /** Whether earlier lots enter. */
      pooling: Pooling,
    }),
    lines: z.array(PlanLine).min(1),
  })
  .superRefine((plan, context) => {
    const known = new Set(plan.lines.map(({ line }) => line));
    for (const [l, line] of plan.lines.entries()) {
      for (const [s, other] of (line.survivorsOf ?? []).entries())
        if (!known.has(other))
          context.addIssue({
            code: 'custom',
            path: ['lines', l, 'survivorsOf', s],
            message: `names line ${other}, which this plan does not have`,
          });
      const named = new Set(line.limits.map(({ limit, revision }) => `${limit}@${revision}`));
      for (const [c, criterion] of line.criteria.entries())
        if (!named.has(`${criterion.limit.limit}@${criterion.limit.revision}`))
          context.addIssue({
            code: 'custom',
            path: ['lines', l, 'criteria', c, 'limit'],
            message: `names limit ${criterion.limit.limit} rev. ${criterion.limit.revision}, which this plan line does not list`,
          });
      for (const { path, message } of schemeProblems(line))
        context.addIssue({ code: 'custom', path: ['lines', l, ...path], message });
    }
    if (plan.claim.pooling !== 'none' && plan.claim.population === 'lot')
      context.addIssue({
        code: 'custom',
        path: ['claim', 'pooling'],
        message:
          'takes earlier lots in, and the claim is about the units of this lot alone; claim it of the process, or pool none',
      });
  });
export type Plan = z.infer<typeof Plan>;

export const PlanRef = z.strictObject({ plan: Key, revision: Revision });
