import { evaluateLot } from '@breakbook/acceptance';
import { EXIT, Refusal } from '@breakbook/lab';
import { staircaseTrials } from '@breakbook/signals';
import { openLotFolder } from '../lot-folder.js';
import { Progress, wrapped } from '../terminal.js';

export interface StaircaseOptions {
  /** Between the levels of the series, J. */
  step: string;
}

/**
 * The wheels of a lot folder that were struck once, each with the energy aimed at and whether it broke, as a request for
 * `breakbook compute`. Runs that say nothing of it are named on standard error, with why.
 */
export function staircaseCommand(folder: string, { step }: StaircaseOptions): number {
  const joules = Number(step);
  if (!(joules > 0 && Number.isFinite(joules)))
    throw new Refusal({
      code: 'query.invalid',
      detail: `--step is "${step}"; it must be a number of joules above 0, such as 5.`,
    });

  const { bundle, filesOf } = openLotFolder(folder);
  const progress = new Progress('reading runs');
  const { runs, refused } = evaluateLot(bundle, filesOf, ({ done, of, share }) => progress.report(done + share, of));
  progress.end();

  const read = runs.flatMap(({ run, reading }) => {
    const method = bundle.methods.find((one) => one.method === run.method && one.revision === run.methodRevision);
    return method ? [{ run, method, reading }] : [];
  });
  const { trials, leftOut } = staircaseTrials(read);
  const unread = refused.map(({ run }) => ({ run: run.run, because: 'its file was refused' }));
  for (const { run, because } of [...leftOut, ...unread])
    console.error(wrapped(`Run ${run} is left out: ${because}`, 96));
  console.log(
    JSON.stringify({
      method: 'staircase',
      trials: trials.map(({ level, broke }) => ({ level, broke })),
      step: joules,
    }),
  );
  return refused.length > 0 ? EXIT.badInput : trials.length > 0 ? EXIT.done : EXIT.undecided;
}
