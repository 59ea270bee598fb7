import { type NotEvaluated, notEvaluated, type Sample } from '@breakbook/lab';

/**
 * Why the conditional technique is not exact for a sample, if it is not: complete samples, and those whose survivors all
 * held the strength of the last break, are served.
 */
export function whyNotConditional({
  exact = [],
  atLeast = [],
  atMost = [],
  between = [],
}: Sample): NotEvaluated | undefined {
  if (atMost.length + between.length > 0)
    return notEvaluated(
      'some strengths are known only as at most or between, and no exact conditional distribution exists for them',
      'every strength is known exactly, or the test ended at its last break',
    );
  if (exact.length === 0 || atLeast.length === 0) return undefined;
  let last = Number.NEGATIVE_INFINITY;
  for (const strength of exact) last = Math.max(last, strength);
  if (atLeast.every((held) => held === last)) return undefined;
  return notEvaluated(
    'specimens were withdrawn at values other than the last break, and the conditional technique is exact for complete ' +
      'samples and tests that ended at the last break only',
    'every specimen is taken to its break, or the technique is calibrated or distribution-free',
  );
}
