import { withoutSoftware } from '@breakbook/lab';
import { runsOfSpecimen, type SpecimenRecordContent } from '../documents/specimen-record/content.js';
import type { FilesOfRuns, LaidBeside } from './laid-beside.js';
import { methodsOf } from './methods-of.js';
import { runAgain } from './run-again.js';

/** A specimen record that has the records of its runs; those made before they were attached have none. */
export type SpecimenWithRecords = SpecimenRecordContent & Required<Pick<SpecimenRecordContent, 'records'>>;

/** What each run of a specimen was read as, and what valid ones gave. */
export function specimenAgain(
  { specimen: { specimen }, runs, records: { bundle, readings }, software }: SpecimenWithRecords,
  files: FilesOfRuns,
): LaidBeside {
  const again = bundle.runs.flatMap((run) => {
    const one = runAgain(
      bundle,
      run,
      readings.find((reading) => reading.run === run.run),
      files,
    );
    return 'evaluated' in one ? [one.evaluated] : [];
  });
  const byRun = (all: typeof readings) => Object.fromEntries(all.map((one) => [one.run, withoutSoftware(one)]));
  return {
    kept: { runs, readings: byRun(readings) },
    now: {
      runs: runsOfSpecimen(bundle, specimen, { runs: again }),
      readings: byRun(again.map(({ reading }) => reading)),
    },
    since: { software, methods: methodsOf(readings) },
  };
}
