import type { MarginStripInput, ProbabilityPlotInput, StaircaseInput, TracePlotInput } from '@breakbook/figures';
import {
  Key,
  Line,
  Lot,
  LotAttempts,
  LotBundle,
  LotOutcome,
  LotResult,
  NotEvaluated,
  PlanInWords,
  PlanRef,
  Problem,
  Reading,
  Run,
  RunJudgement,
  Specimen,
} from '@breakbook/lab';
import { z } from 'zod';
import { declaredIn } from '../openapi/elsewhere.js';
import { PAGING } from '../records/paging.js';

const Strip = declaredIn<MarginStripInput>(
  'figures',
  'MarginStripInput',
  'Every specimen, limits and bounds on one axis.',
);
const Plot = declaredIn<ProbabilityPlotInput>(
  'figures',
  'ProbabilityPlotInput',
  'Failures on the probability paper of the declared distribution.',
);
const Strikes = declaredIn<StaircaseInput>(
  'figures',
  'StaircaseInput',
  'Strikes one after the other, each at its level.',
);
export const TracePlot = declaredIn<TracePlotInput>('figures', 'TracePlotInput', 'Channels of a run over time.');

export const LotsAsked = z.strictObject({ ...PAGING, product: Key.optional() });
export type LotsAsked = z.infer<typeof LotsAsked>;

export const LotInList = z.strictObject({
  lot: Key,
  kind: Lot.shape.kind,
  size: Lot.shape.size,
  product: z.strictObject({ product: Key, name: Line }),
  closed: z.boolean(),
  evaluation: z.union([
    z.strictObject({ plan: PlanRef, outcome: LotOutcome, sentence: z.string(), strip: Strip.optional() }),
    NotEvaluated,
  ]),
});
export type LotInList = z.infer<typeof LotInList>;

/** A lot, what its last evaluation rests on, and what it came to. */
export const LotSheet = z.strictObject({
  bundle: LotBundle,
  lot: LotResult,
  judgements: z.array(RunJudgement),
  readings: z.array(Reading),
  /** What the plan asks for, sentence by sentence. */
  planInWords: PlanInWords,
  /** How often was tried, and what follows from it. */
  attempts: LotAttempts,
  /** Runs whose files were refused, with what was wrong in them. */
  refusals: z.array(z.strictObject({ run: Key, problems: z.array(Problem) })),
  /** What each figure shows; whoever shows it draws it, for its width and in its reader's unit. */
  figures: z.array(
    z.strictObject({
      line: Key,
      marginStrip: Strip.nullable(),
      probabilityPlot: Plot.nullable(),
      strikes: Strikes.nullable(),
    }),
  ),
});
export type LotSheet = z.infer<typeof LotSheet>;

export const RunSheet = z.strictObject({
  run: Run,
  specimen: Specimen,
  reading: Reading,
  judgement: RunJudgement,
  trace: TracePlot.nullable(),
});
export type RunSheet = z.infer<typeof RunSheet>;
