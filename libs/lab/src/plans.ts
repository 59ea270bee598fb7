import { z } from 'zod';
import { LimitRef } from './limits.js';
import { ChannelName } from './methods.js';
import { Day, Fraction, Key, Line, Paragraph, Revision } from './text.js';

export const Distribution = z.enum(['normal', 'lognormal', 'weibull', 'distribution-free']);
export type Distribution = z.infer<typeof Distribution>;

/**
 * What must hold for the lot, declared before the first run. Confidence and coverage are fractions.
 */
export const Criterion = z.discriminatedUnion('kind', [
  /** Every specimen of the claim conforms to this limit. Claims no confidence. */
  z.strictObject({ kind: z.literal('every specimen'), criterion: Key, limit: LimitRef }),
  /** At least `coverage` of the population holds the limit, with `confidence`: the lower tolerance bound clears it. */
  z.strictObject({
    kind: z.literal('tolerance bound'),
    criterion: Key,
    limit: LimitRef,
    distribution: Distribution,
    coverage: Fraction,
    confidence: Fraction,
  }),
  /** n specimens survive the limit and none fails: at least `reliability` of the population does, with `confidence`. */
  z.strictObject({
    kind: z.literal('zero failures'),
    criterion: Key,
    limit: LimitRef,
    reliability: Fraction,
    confidence: Fraction,
  }),
]);
export type Criterion = z.infer<typeof Criterion>;

export const PlanLine = z.strictObject({
  line: Key,
  title: Line,
  method: Key,
  methodRevision: Revision,
  /** Valid runs the plan asks for; fewer leave its claims "not yet decidable". */
  specimens: z.number().int().min(1),
  limits: z.array(LimitRef),
  criteria: z.array(Criterion).min(1),
  /**
   * Lines of this plan whose surviving specimens may be run under this one, such as the static test after the fatigue
   * test. Left out, every run needs a specimen that no run has loaded.
   */
  survivorsOf: z.array(Key).min(1).optional(),
  /** The characteristic this line is about, for figures and lists. */
  characteristic: ChannelName,
});
export type PlanLine = z.infer<typeof PlanLine>;

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
      pooling: z.enum(['none']),
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
    }
  });
export type Plan = z.infer<typeof Plan>;

export const PlanRef = z.strictObject({ plan: Key, revision: Revision });
