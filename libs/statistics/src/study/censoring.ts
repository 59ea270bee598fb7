import type { Sample } from '@breakbook/lab';
import { normalQuantile } from '../distributions/normal.js';
import type { StrengthModel } from '../fits/strength-model.js';
import type { Generator } from '../random/generator.js';

/** How the specimens of a simulated test are ended early, with the share expected to be. */
export interface Censoring {
  kind: 'complete' | 'ended at a break' | 'ended at one value' | 'ended at random';
  share: number;
}

/** Strengths of location 0 and scale 1 on the model's own scale. */
export function strengthOf(model: StrengthModel, share: number): number {
  const y = model.family.quantile(share);
  return model.logarithmic ? Math.exp(y) : y;
}

/** Breaks that a test ended at a break is planned to end at; at least 2. */
export function plannedBreaks(n: number, share: number): number {
  return Math.max(2, Math.round(n * (1 - share)));
}

/** Draws one sample of n specimens. */
export function drawSample(model: StrengthModel, n: number, { kind, share }: Censoring, chance: Generator): Sample {
  const strength = () => strengthOf(model, chance.uniform());
  if (kind === 'complete') return { exact: Array.from({ length: n }, strength) };
  if (kind === 'ended at a break') {
    const sorted = Array.from({ length: n }, strength).sort((a, b) => a - b);
    const breaks = plannedBreaks(n, share);
    return { exact: sorted.slice(0, breaks), atLeast: Array(n - breaks).fill(sorted[breaks - 1]) };
  }
  const end =
    kind === 'ended at one value' ? () => strengthOf(model, 1 - share) : () => randomEnd(model, share, chance);
  const exact: number[] = [];
  const atLeast: number[] = [];
  for (let specimen = 0; specimen < n; specimen++) {
    const [broke, ended] = [strength(), end()];
    if (broke <= ended) exact.push(broke);
    else atLeast.push(ended);
  }
  return { exact, atLeast };
}

/** An end that comes before the break of a specimen with the chance asked for: of the model's own shape, shifted. */
function randomEnd(model: StrengthModel, share: number, { uniform }: Generator): number {
  const y = model.family.quantile(uniform());
  const shift = model.distribution === 'weibull' ? Math.log((1 - share) / share) : -Math.SQRT2 * normalQuantile(share);
  return model.logarithmic ? Math.exp(y + shift) : y + shift;
}
