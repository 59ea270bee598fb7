import { isNotEvaluated, withFlags } from '@breakbook/lab';
import { startedInFuture } from './agreement.js';
import { keyedCharacteristic } from './keyed.js';
import { movedReading } from './moved-reading.js';
import { readBurstRun } from './read-burst.js';
import { readHeatRun } from './read-heat.js';
import { readImpactRun } from './read-impact.js';
import { described } from './reading.js';
import { type ReadRun, type RunInput, readWith } from './run-input.js';
import { refuseForeignInstants } from './stated-instants.js';

/**
 * What did the specimen do? Reads the files of one run, corrects them once by the calibrations in force on their (UTC) day,
 * checks whether they are fit to be judged, and works out the characteristics its method names. Moments that a person moved
 * stand in place of those it would propose. It knows no limit.
 *
 * Throws a `Refusal` where the files cannot be read, or are not of this run.
 */
export function readRun(input: RunInput): ReadRun {
  const read = readWithMoves(input);
  return { ...read, reading: withFlags(read.reading, startedInFuture(input.run)) };
}

/** Moments that a person stated stand in place of those proposed, which are read too, to be told beside them. */
function readWithMoves(input: RunInput): ReadRun {
  const { run, method, onProgress } = input;
  if ((run.instants ?? []).length === 0) return readByMethod(input);
  refuseForeignInstants(run, method);
  const { instants: _, ...unmoved } = run;
  const half = (from: number) =>
    onProgress && { onProgress: (done: number, total: number) => onProgress(from * total + done, 2 * total) };
  const { reading: proposed } = readByMethod({ ...input, run: unmoved, ...half(0) });
  const read = readByMethod({ ...input, ...half(1) });
  return { ...read, reading: movedReading(run, proposed, read.reading) };
}

function readByMethod(input: RunInput): ReadRun {
  const { method, run } = input;
  if (run.method !== method.method || run.methodRevision !== method.revision)
    throw new Error(
      `readRun: run ${run.run} was made by ${run.method} rev. ${run.methodRevision}; got ${method.method} rev. ${method.revision}`,
    );
  switch (method.test) {
    case 'burst':
      return readBurstRun(method, input, readWith(input));
    case 'heat':
      return readHeatRun(method, input, readWith(input));
    case 'impact':
      return readImpactRun(method, input);
    case 'table':
      return readTableRun(input);
  }
}

/** Values keyed from a results table: no trace, so nothing to check in one. */
function readTableRun({ method, run, files }: RunInput): ReadRun {
  const characteristics = method.characteristics.map((wanted) => keyedCharacteristic(wanted, run));
  return {
    reading: {
      ...described(method, run),
      files: files.map(({ name, sha256, bytes }) => ({ name, sha256, bytes: bytes.length, rows: 0 })),
      calibrations: [],
      flags: [],
      checks: [],
      characteristics,
      events: [],
      proposedValidity: characteristics.every(({ value }) => !isNotEvaluated(value)) ? 'valid' : 'needs a look',
    },
    traces: [],
  };
}
