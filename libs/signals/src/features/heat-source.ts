import type { GlassTransition, HeatMethod } from '@breakbook/lab';
import type { ChannelUncertainty } from './budget.js';
import type { CorrectionApplied } from './correction-step.js';
import type { Survival } from './heat-failure.js';
import { gapsIn, type Stretch } from './heat-stretch.js';
import { inUnit, seconds } from './words.js';

/** Everything the characteristics of a heat run, or of one of its stages, are worked out from. */
export interface HeatSource {
  method: HeatMethod;
  stretches: readonly Stretch[];
  /** Of the whole run, the stage that took the most energy. */
  main: Stretch;
  survival: Survival;
  /** Stages without a record. */
  unrecorded: readonly number[];
  corrections: ReadonlyMap<string, CorrectionApplied | undefined>;
  calibrations: ReadonlyMap<string, ChannelUncertainty>;
  /** By the product, or else by the method. */
  glassTransition: GlassTransition | undefined;
}

/** How a stage is named inside a sentence, where there are several. */
export function inStage({ stretches }: HeatSource, stretch: Stretch): string {
  return stretches.length > 1 ? ` in ${stretch.title}` : '';
}

/** Where in its stage a time sum up to the end of the run stops: at the failure, or with the record. */
export function reached({ survival }: HeatSource, stretch: Stretch): number {
  return stretch === survival.stretch && survival.failure ? survival.failure.index : stretch.last;
}

/** Time that gaps leave unknown, s. */
export function secondsInGaps(source: HeatSource): number {
  return source.stretches
    .flatMap((one) => gapsIn(one, reached(source, one)))
    .reduce((sum, { from, to }) => sum + (to - from), 0);
}

/** Why a sum over the record is known from below only; empty where it is whole. */
export function whyIncomplete(source: HeatSource): string[] {
  const gaps = source.stretches.flatMap((one) => gapsIn(one, reached(source, one)));
  return [
    ...(gaps.length > 0
      ? [
          `${gaps.length === 1 ? 'a gap' : `${gaps.length} gaps`} of ${seconds(secondsInGaps(source))} in all, over which nothing is filled in`,
        ]
      : []),
    ...source.unrecorded.map((passage) => `stage ${passage} has no record`),
  ];
}

/** Why the energy is known from below only. */
export function whyEnergyIncomplete(source: HeatSource): string[] {
  const clipped = source.stretches.find(({ features }) => features.forceFlatTop)?.features.forceFlatTop;
  return [
    ...whyIncomplete(source),
    ...(clipped ? [`the brake force is cut off at full scale, ${inUnit('N')(clipped.value)}`] : []),
  ];
}
