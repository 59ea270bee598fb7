import { compareCase } from '@breakbook/acceptance';
import { withoutSoftware } from '@breakbook/lab';
import type { ComparisonReportContent } from '../documents/comparison-report/content.js';
import type { LaidBeside } from './laid-beside.js';

/** Every number, level and sentence that a comparison came to, from what it rests on. */
export function comparisonAgain({ case: given, result, software }: ComparisonReportContent): LaidBeside {
  const methods = new Set(given.runs.map(({ method, methodRevision }) => `${method} rev. ${methodRevision}`));
  return {
    kept: withoutSoftware(result),
    now: withoutSoftware(compareCase(given)),
    since: { software, methods: [...methods].sort() },
  };
}
