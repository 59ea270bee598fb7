import { type Check, type Method, type Problem, type Reading, type Run, SOFTWARE } from '@breakbook/lab';
import type { Finding } from '../checks/finding.js';
import type { ChannelUncertainty } from '../features/budget.js';
import type { ReadFile, SentFile } from './run-file.js';

/** What every reading says first. */
export function described(method: Method, run: Run) {
  return { run: run.run, method: { method: method.method, revision: method.revision }, software: SOFTWARE };
}

/** Progress over several files as over one: bytes of the files before count too. */
export function inFilesOrder(
  files: readonly SentFile[],
  onProgress: ((done: number, total: number) => void) | undefined,
) {
  const total = files.reduce((sum, { bytes }) => sum + bytes.length, 0);
  let before = 0;
  return ({ bytes }: SentFile) => {
    const start = before;
    before += bytes.length;
    return onProgress && ((done: number) => onProgress(start + done, total));
  };
}

/** The files of a reading, and the calibrations that corrected them, each once. */
export function sources(reads: readonly ReadFile[]): Pick<Reading, 'files' | 'calibrations'> {
  const calibrations = new Map<string, Reading['calibrations'][number]>();
  for (const { sensor: one } of reads.flatMap(({ channels }) => channels))
    if (one.sensor && one.calibration)
      calibrations.set([one.channel, one.sensor, one.calibration.calibration, one.day].join(' '), {
        channel: one.channel,
        sensor: one.sensor,
        calibration: one.calibration.calibration,
        validOnDay: one.day <= one.calibration.due,
      });
  return {
    files: reads.map(({ file, rows, numbers }) => ({
      name: file.name,
      sha256: file.sha256,
      bytes: file.bytes.length,
      rows,
      numbers,
    })),
    calibrations: [...calibrations.values()],
  };
}

/**
 * Uncertainty of each channel by its calibration; of several files with one channel, the largest. A channel that was
 * without calibration in one of them has none.
 */
export function uncertaintiesOf(reads: readonly ReadFile[]): Map<string, ChannelUncertainty> {
  const uncertainties = new Map<string, ChannelUncertainty>();
  const without = new Set<string>();
  for (const { channel, uncertainty } of reads.flatMap(({ channels }) => channels)) {
    const before = uncertainties.get(channel.channel);
    if (!uncertainty) without.add(channel.channel);
    else if (!before || uncertainty.u > before.u) uncertainties.set(channel.channel, uncertainty);
  }
  for (const channel of without) uncertainties.delete(channel);
  return uncertainties;
}

/** A check that did not pass raises its flag on the run, in the words of the check. */
export function signalFlag({ check, signal }: Finding, file: string): Problem[] {
  if (!signal) return [];
  return [
    {
      code: signal,
      file,
      detail: `${file}: ${check.finding}`,
      ...(check.place ? { channel: check.place.channel } : {}),
      action: check.action ?? actionFor(check),
    },
  ];
}

function actionFor({ check }: Check): string {
  return `Confirm what the check "${check}" found; the value is known from one side only.`;
}
