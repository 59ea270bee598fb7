import path from 'node:path';
import { addedAndChanged } from '@breakbook/evidence';
import { EXIT, Refusal, SOFTWARE } from '@breakbook/lab';
import { lotFoldersIn } from '../lot-folder.js';
import { printProblem } from '../refusals.js';
import { Progress, printable, wrapped } from '../terminal.js';
import { addedInWords, type RecomputedLot, type RecomputeOptions, recomputeCommand, recomputed } from './recompute.js';

/** More lots that differ or could not be read are counted, not listed. */
const MOST_LISTED = 20;

/** A lot folder recomputed, or each of the lot folders that lie in a folder. */
export function recomputeFolder(folder: string, options: RecomputeOptions): number {
  const lots = lotFoldersIn(folder);
  return lots.length > 0 ? recomputeLots(lots, options.against ?? 'out') : recomputeCommand(folder, options);
}

/**
 * Do many lots still give what was kept of them? Each is read and judged again from its own folder; one that cannot be is
 * told at the end and keeps no other from being recomputed. One lot is held in memory at a time.
 */
function recomputeLots(folders: readonly string[], against: string): number {
  const progress = new Progress('recomputing lots');
  const different: RecomputedLot[] = [];
  const unread: { folder: string; refusal: Refusal }[] = [];
  let [runs, identicalRuns] = [0, 0];
  for (const [index, folder] of folders.entries()) {
    try {
      const found = recomputed(folder, (lot) => path.join(against, lot, 'result.json'));
      runs += found.runs.length;
      identicalRuns += found.runs.filter(({ outcome }) => outcome === 'identical').length;
      if (!found.identical) different.push(found);
    } catch (thrown) {
      if (!(thrown instanceof Refusal)) throw thrown;
      unread.push({ folder, refusal: thrown });
    }
    progress.report(index + 1, folders.length);
  }
  progress.end();

  const identical = folders.length - different.length - unread.length;
  console.log(
    [
      `${folders.length} lots · compared with ${printable(against)} · now by ${SOFTWARE}`,
      `${identical} of ${folders.length} lots identical to the last bit, ${identicalRuns} of ${runs} runs.`,
      ...told(different, differenceOf),
      ...told(
        unread,
        ({ folder, refusal }) =>
          `${printable(folder)}: not recomputed\n${refusal.problems.map(printProblem).join('\n')}`,
      ),
    ].join('\n\n'),
  );
  if (unread.length > 0) return EXIT.badInput;
  return different.length > 0 ? EXIT.doesNotMeet : EXIT.done;
}

function differenceOf({ lot, runs, ofLot }: RecomputedLot): string {
  const apart = runs.filter(({ outcome }) => outcome !== 'identical');
  const { added, changed } = addedAndChanged([...ofLot, ...apart.flatMap(({ differences }) => differences)]);
  const missing = apart.filter(({ differences }) => differences.length === 0).length;
  if (changed.length === 0 && missing === 0) return wrapped(printable(`Lot ${lot}: ${addedInWords(added, 0)}`));
  const [first] = changed;
  const where = first ? `, first ${first.place}: was ${first.kept ?? 'not there'}, is ${first.now ?? 'not there'}` : '';
  return wrapped(
    printable(
      `Lot ${lot}: ${apart.length} of ${runs.length} runs and ${ofLot.length} places of the lot's result differ${where}${added.length > 0 ? `; ${addedInWords(added, changed.length)}` : ''}`,
    ),
  );
}

function told<One>(some: readonly One[], inWords: (one: One) => string): string[] {
  const more = some.length - MOST_LISTED;
  return [...some.slice(0, MOST_LISTED).map(inWords), ...(more > 0 ? [`and ${more} more`] : [])];
}
