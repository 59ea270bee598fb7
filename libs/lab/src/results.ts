import { type NotEvaluated } from './not-evaluated.js';
import { type Problem } from './problems.js';
import { type ResultKind } from './sample.js';

/** A point in a trace worth marking on a figure. */
export interface TraceEvent {
  name: string;
  time: number;
  value: number;
  channel: string;
  /** Which of several passages it belongs to. Times are those of the file that recorded it. */
  passage?: number;
}

/** One limit-blind check of a run. Checks propose validity; people decide it. */
export interface Check {
  check: string;
  /** The question it answers, as a person would ask it. */
  question: string;
  outcome: 'pass' | 'flag' | 'fail' | 'not evaluated';
  /** What was found, in one sentence with its numbers. */
  finding: string;
  /** What to do where it did not pass. */
  action?: string;
  place?: { channel: string; from: number; to: number };
  /** Which of several passages it is about. */
  passage?: number;
}

/** A named quantity from a run, before any limit is known. */
export interface Characteristic {
  characteristic: string;
  title: string;
  unit: string;
  reference?: 'gauge' | 'absolute';
  /** What the record alone says: a saturated peak is "at least". The examination may add to it. */
  value: CharacteristicValue | NotEvaluated;
  /**
   * What the same record says where the examination finds the part broken, if that differs: a wheel found cracked after
   * one strike broke at that energy or below, while the record of the strike alone says that it was loaded with it.
   */
  ifBroken?: CharacteristicValue | NotEvaluated;
  /** What must stand beside the value wherever it is shown, in one sentence without a full stop. */
  caution?: string;
  /** Expanded uncertainty in `unit`; undefined where the method states none. */
  uncertainty?: { expanded: number; k: number; components: { name: string; u: number }[] };
  source: 'trace' | 'keyed';
  steps: Step[];
}

/** A value as far as it is known: exact, or from one side, or between two. */
export type CharacteristicValue =
  | { kind: Exclude<ResultKind, 'between'>; value: number }
  | { kind: 'between'; lower: number; upper: number };

/** How a number came about, as data: worded in one place for screen and paper. */
export interface Step {
  question: string;
  numbers: Record<string, number | string>;
  answer: string;
}

/** A channel as it is judged: in the method's unit, corrected once by the calibration in force. */
export interface Trace {
  channel: string;
  unit: string;
  reference?: 'gauge' | 'absolute';
  /** Which of several passages was recorded; left out where the record covers the whole run. */
  passage?: number;
  /** Seconds, on the clock of the file. */
  time: Float64Array;
  values: Float64Array;
}

/** What one of several passages of a run gave by itself. */
export interface PassageReading {
  passage: number;
  title: string;
  file?: string;
  characteristics: Characteristic[];
}

/** What `readRun` says of one run. It knows no limit. */
export interface Reading {
  run: string;
  method: { method: string; revision: number };
  software: string;
  files: { name: string; sha256: string; bytes: number; rows: number }[];
  calibrations: { channel: string; sensor: string; calibration: string; validOnDay: boolean }[];
  /** Departures from the layout that were taken but must be dealt with. */
  flags: Problem[];
  checks: Check[];
  /** Of the whole run, each name once. */
  characteristics: Characteristic[];
  /** Per passage, where there are several. */
  passages?: PassageReading[];
  events: TraceEvent[];
  proposedValidity: 'valid' | 'invalid' | 'needs a look';
}
