import type { Verdict } from './judgements.js';
import { isNotEvaluated } from './not-evaluated.js';

/** A probability that is never printed as certain: nothing measured is. */
export function probabilityInWords(probability: number): string {
  if (probability > 0.999) return 'above 0.999';
  return probability < 0.001 ? 'below 0.001' : probability.toFixed(3);
}

/**
 * What stands beside a verdict on screen and paper: in which zone the value lies and how likely the specimen itself
 * conforms (JCGM 106:2012, 7), or, where signs were looked for, how and what that finds. Verdicts of before this was
 * worked out have none of it.
 */
export function besideVerdict({ zone, probabilityOfConformance: chance, inspection }: Verdict): string[] {
  if (inspection) return [`looked for: ${ended(inspection.method)}`, `which finds: ${ended(inspection.detects)}`];
  return [
    ...(zone === undefined ? [] : [zone]),
    ...(chance === undefined || isNotEvaluated(chance)
      ? []
      : [`probability that the specimen itself conforms, by the measurement alone: ${probabilityInWords(chance)}`]),
  ];
}

/** Without a full stop: it stands within a line. */
function ended(text: string): string {
  return text.replace(/\.\s*$/, '');
}
