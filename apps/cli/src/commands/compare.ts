import { caseOfLots, compareCase, evaluateLot } from '@breakbook/acceptance';
import { canonicalJson } from '@breakbook/evidence';
import { type ComparisonCase, type ComparisonLevel, EXIT } from '@breakbook/lab';
import { openComparison } from '../comparison-folder.js';
import { comparisonSheet } from '../comparison-sheet.js';
import { Progress } from '../terminal.js';

export interface CompareOptions {
  json?: boolean;
}

/** How the command ends that came to this level. */
const STATUS: Record<ComparisonLevel, number> = {
  A: EXIT.doesNotMeet,
  B: EXIT.doesNotMeet,
  C: EXIT.undecided,
  D: EXIT.done,
  E: EXIT.undecided,
};

/** A comparison folder in; how well things agree on the terminal, sentence by sentence. No server, no database. */
export function compareCommand(place: string, { json }: CompareOptions): number {
  const given = caseIn(place);
  const result = compareCase(given);
  console.log(json ? canonicalJson(result) : comparisonSheet(given, result));
  return STATUS[result.level];
}

/** Every lot of the folder read and judged, with the comparison that rests on them. */
function caseIn(place: string): ComparisonCase {
  const { document, lots } = openComparison(place);
  const progress = new Progress('reading runs');
  const runs = lots.reduce((sum, { bundle }) => sum + bundle.runs.length, 0);
  let before = 0;
  const evaluated = lots.map(({ bundle, filesOf }) => {
    const evaluation = evaluateLot(bundle, filesOf, ({ done, share }) => progress.report(before + done + share, runs));
    before += bundle.runs.length;
    return { bundle, evaluation };
  });
  progress.end();
  return caseOfLots(document, evaluated);
}
