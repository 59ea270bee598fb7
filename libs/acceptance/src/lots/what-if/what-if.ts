import { type LotBundle, type LotResult, type Reading, Refusal, type RunJudgement } from '@breakbook/lab';
import type { UnreadRun } from '../claim.js';
import { type EvaluationProgress, evaluateLot } from '../evaluate-lot.js';
import type { FileBytes } from '../evaluate-run.js';
import { judgedFromReadings } from '../judged-from-readings.js';
import { changedBundle, type WhatIfChange } from './changed-bundle.js';
import { changesInWords } from './changes-in-words.js';

/** What the runs said: their readings where these are kept, else the bytes of their files, read anew. */
export type WhatRunsSaid =
  | { readings: ReadonlyMap<string, Reading> }
  | { filesOf: (run: string) => FileBytes[]; onProgress?: (progress: EvaluationProgress) => void };

/** What would follow; nothing is decided by it, and it is not to be kept as a judgement. */
export interface WhatIf {
  result: LotResult & { whatIf: NonNullable<LotResult['whatIf']> };
  judgements: RunJudgement[];
  /** Runs whose files were refused. */
  refused: UnreadRun[];
}

/**
 * What would be said of this lot under another plan revision, or under a limit at another value? The same runs, read as
 * they were, are judged by the same functions. What a run shows knows no limit, so no file need be read again.
 *
 * The answer says in its sentence and in `whatIf.changed` that it is none. A claim chosen after the values are known has
 * not the confidence it names: whoever looks at many what-ifs finds one that suits.
 */
export function whatIf(bundle: LotBundle, change: WhatIfChange, runs: WhatRunsSaid): WhatIf {
  const changed = changedBundle(bundle, change);
  const words = changesInWords(bundle, change, changed);
  if (words.length === 0)
    throw new Refusal({
      code: 'body.range',
      pointer: '',
      detail: `nothing would be different from plan ${bundle.plan.plan} rev. ${bundle.plan.revision} as it is. Name another plan revision, or a limit with another value.`,
    });
  const { result, ...rest } =
    'readings' in runs ? judgedFromReadings(changed.bundle, runs) : fromFiles(changed.bundle, runs);
  return {
    ...rest,
    result: {
      ...result,
      sentence: `What-if, nothing is decided by it: ${result.sentence}`,
      whatIf: { changed: words },
    },
  };
}

type Judged = Omit<WhatIf, 'result'> & { result: LotResult };

function fromFiles(bundle: LotBundle, { filesOf, onProgress }: Extract<WhatRunsSaid, { filesOf: unknown }>): Judged {
  const { result, runs, refused } = evaluateLot(bundle, filesOf, onProgress);
  return { result, judgements: runs.map(({ judgement }) => judgement), refused };
}
