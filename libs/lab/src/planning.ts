import { z } from 'zod';
import { NotEvaluated } from './not-evaluated.js';
import { Distribution, Plan, RaisedLoad, Share } from './plans.js';
import { UnitCode } from './quantity.js';
import { Step } from './results.js';
import { Day, Key, Line, Paragraph, Revision } from './text.js';

/** What is asked before anything is broken, and what is answered: designs, what a few specimens can show, risks of a plan. */

const Size = z.number().int().min(1).max(100_000);
const LotSize = z.number().int().min(2).max(1_000_000);
/** Standard deviation over mean. */
const Scatter = z.number().min(0.001, { error: 'must be a fraction of 0.001 or more: 0.06 for 6 %' }).max(1, {
  error: 'must be a fraction of 1 or less: write 0.06 for 6 %',
});
const FittedFamily = Distribution.exclude(['distribution-free']);

const DesignStages = z.array(z.number().int().min(2).max(200)).min(2).max(5);

/** A demonstration above the limit, as a plan will declare it; the modes are the plan's matter. */
export const RaisedGuess = RaisedLoad.omit({ modes: true, lowerShapes: true }).extend({
  lowerShapes: z.array(z.number().positive()).max(10).optional(),
});

/** The claim wanted, a guess at the strengths, and what a specimen and a run cost. */
export const DesignsAsked = z
  .strictObject({
    /** Strength must be at least this. */
    limit: z.strictObject({ value: z.number().positive(), unit: UnitCode }),
    coverage: Share,
    confidence: Share,
    /** Units in the lot, where the claim is about this lot alone; left out, it is about the process. */
    lotSize: LotSize.optional(),
    /** What the strengths are expected to be: the mean in the unit of the limit. */
    guess: z.strictObject({ mean: z.number().positive(), cv: Scatter }).optional(),
    /** Or strengths of earlier lots, each lot a list, in the unit of the limit. */
    earlier: z.array(z.array(z.number().positive()).min(2).max(1000)).min(1).max(50).optional(),
    /** The chance with which a good lot is to pass; 0.8 if left out. */
    power: Share.optional(),
    /** Share of a good lot below the limit; left out, what the guess comes to. */
    good: Share.optional(),
    /** Share of a bad lot below the limit; left out, what the claim denies. */
    bad: Share.optional(),
    /** Fewest specimens on which the method prints a bound; 5 if left out. */
    minimumSpecimens: z.number().int().min(2).max(1000).optional(),
    /** What a staged bound assumes; Weibull if left out. */
    distribution: FittedFamily.optional(),
    /** Specimens that each stage adds; 5 and 5 more if left out. */
    stages: DesignStages.optional(),
    raised: RaisedGuess.optional(),
    cost: z
      .strictObject({
        perSpecimen: z.number().min(0).optional(),
        currency: Line.optional(),
        rigHoursPerRun: z.number().min(0).optional(),
      })
      .optional(),
  })
  .superRefine(({ guess, earlier }, context) => {
    if ((guess === undefined) === (earlier === undefined))
      context.addIssue({
        code: 'custom',
        path: ['guess'],
        message: 'or earlier is needed, and not both: a guess at mean and scatter, or strengths of earlier lots',
      });
  });
export type DesignsAsked = z.infer<typeof DesignsAsked>;

const Chance = z.number().min(0).max(1);
/** How likely a lot passes of which this share lies below the limit. */
export const CurvePoint = z.strictObject({ share: Chance, chance: Chance });
export type CurvePoint = z.infer<typeof CurvePoint>;

export const DesignName = z.enum([
  'zero failures',
  'failures at most',
  'zero failures, raised load',
  'normal bound',
  'lognormal bound',
  'Weibull bound',
  'staged bound',
  'staircase',
]);
export type DesignName = z.infer<typeof DesignName>;

const Simulated = z.strictObject({ replicates: z.number().int(), seed: z.number().int(), error: z.number() });

/** One way to show the claim. */
export const DesignFound = z.strictObject({
  design: DesignName,
  /** Specimens at most. */
  n: z.number().int(),
  /** Specimens on average, where a stage may end it earlier. */
  expected: z.strictObject({ good: z.number(), bad: z.number() }).optional(),
  /** Failures that may happen. */
  allowed: z.number().int().optional(),
  loadRatio: z.number().optional(),
  /** Tolerance factor: the bound is mean - k s. */
  k: z.number().optional(),
  stages: z.array(z.number().int()).optional(),
  perStageConfidence: z.number().optional(),
  population: z.enum(['process', 'lot']),
  cost: z
    .strictObject({
      specimens: z.number().optional(),
      currency: z.string().optional(),
      rigHours: z.number().optional(),
    })
    .optional(),
  good: CurvePoint,
  bad: CurvePoint,
  /** The confidence it keeps for the claim. */
  keeps: z.number(),
  curve: z.array(CurvePoint),
  /** What the same result would show were the shape lower. */
  lowerShapes: z.array(z.strictObject({ shape: z.number(), reliability: z.number() })).optional(),
  simulation: Simulated.optional(),
  assumes: z.string(),
  sentence: z.string(),
  notes: z.array(z.string()),
});
export type DesignFound = z.infer<typeof DesignFound>;

/** One way that cannot be had for this claim. */
export const DesignNotHad = NotEvaluated.extend({ design: DesignName });
export const Design = z.union([DesignFound, DesignNotHad]);
export type Design = z.infer<typeof Design>;

export const Designs = z.strictObject({
  asked: DesignsAsked,
  /** What was taken for the strengths, guessed or estimated. */
  guess: z.strictObject({ mean: z.number(), cv: z.number(), from: z.string() }),
  designs: z.array(Design),
  notes: z.array(z.string()),
});
export type Designs = z.infer<typeof Designs>;

/** What so many specimens can show. */
export const ShowableAsked = z.strictObject({
  n: Size,
  coverage: Share,
  confidence: Share,
  lotSize: LotSize.optional(),
  /** Scatter to reckon with; without it nothing is said of margins. */
  cv: Scatter.optional(),
  /** Mean over limit to reckon with; without it nothing is said of scatter. */
  meanOverLimit: z.number().gt(1, { error: 'must be above 1: the mean lies above the limit' }).max(100).optional(),
  power: Share.optional(),
  /** Lowest plausible Weibull shape, for a raised load. */
  shape: z.number().positive().max(200).optional(),
});
export type ShowableAsked = z.infer<typeof ShowableAsked>;

const Unanswered = NotEvaluated.extend({ question: z.string() });
export const Showable = z.strictObject({
  asked: ShowableAsked,
  answers: z.array(z.union([Step, Unanswered])),
});
export type Showable = z.infer<typeof Showable>;

/** What one criterion of a plan risks. */
export const CriterionRisk = z.strictObject({
  criterion: z.string(),
  kind: z.string(),
  /** The limit by name. */
  limit: z.string(),
  /** The chance that a lot just at the edge of the claim passes. */
  atLimit: CurvePoint.optional(),
  /** The confidence that the criterion keeps, its whole schedule included; left out where it claims none. */
  keeps: z.number().optional(),
  curve: z.array(CurvePoint),
  schedule: z
    .strictObject({
      looks: z.array(z.number().int()),
      perStageConfidence: z.number().optional(),
      /** What the schedule would keep with the stated confidence at each look. */
      unadjusted: z.number().optional(),
      /** Specimens on average, where the share of `atLimit` lies below the limit. */
      expected: z.number().optional(),
    })
    .optional(),
  simulation: Simulated.optional(),
  assumes: z.string(),
  sentence: z.string(),
});
export type CriterionRisk = z.infer<typeof CriterionRisk>;

export const CriterionRiskUnknown = NotEvaluated.extend({
  criterion: z.string(),
  kind: z.string(),
  limit: z.string(),
});
export type CriterionRiskUnknown = z.infer<typeof CriterionRiskUnknown>;

/** Between what the chance lies that a lot passes the line. */
export const LineCurvePoint = z.strictObject({ share: Chance, atLeast: Chance, atMost: Chance });

export const LineRisk = z.strictObject({
  line: z.string(),
  title: z.string(),
  specimens: z.number().int(),
  criteria: z.array(z.union([CriterionRisk, CriterionRiskUnknown])),
  /** All criteria of the line together, or why that cannot be said. */
  together: z.union([z.strictObject({ curve: z.array(LineCurvePoint), sentence: z.string() }), NotEvaluated]),
});
export type LineRisk = z.infer<typeof LineRisk>;

/** What a plan risks: how often a lot that it should not pass does. */
export const PlanRisks = z.strictObject({
  plan: z.string(),
  revision: z.number().int(),
  lotSize: z.number().int().optional(),
  lines: z.array(LineRisk),
  sentence: z.string(),
});
export type PlanRisks = z.infer<typeof PlanRisks>;

/** A plan, and how many units the lot holds that it will judge. */
export const RisksAsked = z.strictObject({ plan: Plan, lotSize: LotSize.optional() });
export type RisksAsked = z.infer<typeof RisksAsked>;

export const TemplateName = z.enum(['burst', 'brake heat', 'impact']);
export type TemplateName = z.infer<typeof TemplateName>;

/** A limit by its revision, chosen for one place of a template. */
const ChosenLimit = z.strictObject({ place: Line, limit: Key, revision: Revision });

/** How the claim is shown, where otherwise than the template proposes: as a design says. */
export const ShownBy = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('tolerance bound'), distribution: FittedFamily, stages: DesignStages.optional() }),
  z.strictObject({ kind: z.literal('zero failures'), raised: RaisedLoad.optional() }),
  z.strictObject({ kind: z.literal('failures at most'), allowed: z.number().int().min(0) }),
  /** By a staircase in such steps, in the unit of the limit. */
  z.strictObject({ kind: z.literal('response energy'), step: z.number().positive() }),
]);
export type ShownBy = z.infer<typeof ShownBy>;

/** What fills a template. */
export const TemplateFilling = z.strictObject({
  plan: Key,
  product: Key,
  approvedBy: Key,
  approvedOn: Day,
  use: Line,
  method: Key,
  methodRevision: Revision,
  /** Limits, each with the place of the template it takes. */
  limits: z.array(ChosenLimit).max(20),
  /** What differs from the numbers the template proposes. */
  specimens: z.number().int().min(1).max(10_000).optional(),
  coverage: Share.optional(),
  confidence: Share.optional(),
  /** What the claim speaks of; the process that makes such lots if left out. */
  population: z.enum(['process', 'lot']).optional(),
  shownBy: ShownBy.optional(),
});
export type TemplateFilling = z.infer<typeof TemplateFilling>;

/** Which template, and what fills it. */
export const DraftAsked = TemplateFilling.extend({ template: TemplateName });
export type DraftAsked = z.infer<typeof DraftAsked>;

/** A draft of a plan: what it will say, and what must be chosen first. */
export const PlanTemplate = z.strictObject({
  template: TemplateName,
  title: Line,
  about: Paragraph,
  characteristic: z.string(),
  /** Places for limits, each with what belongs there. */
  limits: z.array(
    z.strictObject({ place: z.string(), about: z.string(), needed: z.boolean(), characteristic: z.string() }),
  ),
  specimens: z.number().int(),
  coverage: z.number(),
  confidence: z.number(),
  claims: z.array(z.string()),
});
export type PlanTemplate = z.infer<typeof PlanTemplate>;
