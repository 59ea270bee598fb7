import type { Calibration, GlassTransition, Layout, Method, Quantity, Reading, Rig, Run, Trace } from '@breakbook/lab';
import type { ReadWith, SentFile } from './run-file.js';

export interface RunInput {
  method: Method;
  /** Needed where the method reads a file. */
  layout?: Layout;
  rig?: Rig;
  calibrations: readonly Calibration[];
  files: readonly SentFile[];
  run: Run;
  /** Pressure marked on the part, for the safety ratio. */
  markedMaximum?: Quantity;
  /** Of the resin under the track, by the product. */
  glassTransition?: GlassTransition;
  /** Bytes read so far, and in all. */
  onProgress?: (done: number, total: number) => void;
}

/** What a run says before any limit is known, and its channels as they are judged. */
export interface ReadRun {
  reading: Reading;
  traces: Trace[];
}

/** What the files of this run are read with; a run that reads files has all of it. */
export function readWith({ method, layout, rig, calibrations, run }: RunInput): ReadWith {
  if (!layout || !rig) throw new Error(`readRun: method ${method.method} reads a file; give the layout and the rig`);
  if (run.rig !== rig.rig || layout.rig !== rig.rig)
    throw new Error(`readRun: run ${run.run} was made on rig ${run.rig}; got rig ${rig.rig}, layout of ${layout.rig}`);
  return { method, layout, rig, calibrations, run };
}
