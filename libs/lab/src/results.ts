import { z } from 'zod';
import { LossOfPressure } from './moved-instants.js';
import { NotEvaluated } from './not-evaluated.js';
import { Problem, shown } from './problems.js';
import { Key } from './text.js';

/** A point in a trace worth marking on a figure. */
export const TraceEvent = z.strictObject({
  name: z.string(),
  time: z.number(),
  value: z.number(),
  channel: z.string(),
  /** Which of several passages it belongs to; `time` is then on that passage's clock. */
  passage: z.number().int().optional(),
  /** Of a failure that is no burst: how the pressure was lost, as it is proposed or as a person said. */
  loss: LossOfPressure.optional(),
  /** A person put it here; `proposed` is where it was proposed, where it was. */
  moved: z.strictObject({ by: Key, proposed: z.number().optional() }).optional(),
});
export type TraceEvent = z.infer<typeof TraceEvent>;

/** One limit-blind check of a run. Checks propose validity; people decide it. */
export const Check = z.strictObject({
  check: z.string(),
  /** The question it answers, as a person would ask it. */
  question: z.string(),
  outcome: z.enum(['pass', 'flag', 'fail', 'not evaluated']),
  /** What was found, in one sentence with its numbers. */
  finding: z.string(),
  /** What to do where it did not pass. */
  action: z.string().optional(),
  place: z.strictObject({ channel: z.string(), from: z.number(), to: z.number() }).optional(),
  /** Which of several passages it is about. */
  passage: z.number().int().optional(),
});
export type Check = z.infer<typeof Check>;

/** A value as far as it is known: exact, or from one side, or between two. */
export const CharacteristicValue = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.enum(['exact', 'atLeast', 'atMost']), value: z.number() }),
  z.strictObject({ kind: z.literal('between'), lower: z.number(), upper: z.number() }),
]);
export type CharacteristicValue = z.infer<typeof CharacteristicValue>;

/** How a number came about, as data: worded in one place for screen and paper. */
export const Step = z.strictObject({
  question: z.string(),
  numbers: z.record(z.string(), z.union([z.number(), z.string()])),
  answer: z.string(),
  /** The formula that gave the numbers, and the document it is taken from, where there is one. */
  formula: z.string().optional(),
  source: z.string().optional(),
});
export type Step = z.infer<typeof Step>;

/** A named quantity from a run, before any limit is known. */
export const Characteristic = z.strictObject({
  characteristic: z.string(),
  title: z.string(),
  unit: z.string(),
  reference: z.enum(['gauge', 'absolute']).optional(),
  /** What the record alone says: a saturated peak is "at least". The examination may add to it. */
  value: z.union([CharacteristicValue, NotEvaluated]),
  /**
   * What the same record says where the examination finds the part broken, if that differs: a wheel found cracked after
   * one strike broke at that energy or below, while the record of the strike alone says that it was loaded with it.
   */
  ifBroken: z.union([CharacteristicValue, NotEvaluated]).optional(),
  /** What must stand beside the value wherever it is shown, in one sentence without a full stop. */
  caution: z.string().optional(),
  /** Expanded uncertainty in `unit`; undefined where the method states none. */
  uncertainty: z
    .strictObject({
      expanded: z.number(),
      k: z.number(),
      /** Probability that the method asked for, where k follows from it. */
      coverage: z.number().optional(),
      components: z.array(z.strictObject({ name: z.string(), u: z.number() })),
    })
    .optional(),
  source: z.enum(['trace', 'keyed']),
  steps: z.array(Step),
});
export type Characteristic = z.infer<typeof Characteristic>;

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
  /** Seconds: the stretch a figure shows, where the whole record would be one line. */
  shown?: { from: number; to: number };
}

/** What one of several passages of a run gave by itself. */
export const PassageReading = z.strictObject({
  passage: z.number().int(),
  title: z.string(),
  file: z.string().optional(),
  characteristics: z.array(Characteristic),
});
export type PassageReading = z.infer<typeof PassageReading>;

/** What `readRun` says of one run. It knows no limit. */
export const Reading = z.strictObject({
  run: z.string(),
  method: z.strictObject({ method: z.string(), revision: z.number().int() }),
  software: z.string(),
  files: z.array(
    z.strictObject({
      name: z.string(),
      sha256: z.string(),
      bytes: z.number().int(),
      rows: z.number().int(),
      /** Digest of the numbers alone: two files that say the same in other bytes share it. */
      numbers: z.string().optional(),
    }),
  ),
  calibrations: z.array(
    z.strictObject({ channel: z.string(), sensor: z.string(), calibration: z.string(), validOnDay: z.boolean() }),
  ),
  /** Departures from the layout that were taken but must be dealt with. */
  flags: z.array(Problem),
  checks: z.array(Check),
  /** Of the whole run, each name once. */
  characteristics: z.array(Characteristic),
  /** Per passage, where there are several. */
  passages: z.array(PassageReading).optional(),
  events: z.array(TraceEvent),
  proposedValidity: z.enum(['valid', 'invalid', 'needs a look']),
});
export type Reading = z.infer<typeof Reading>;

/** A reading with flags found after it was made: what would have been valid needs a look. */
export function withFlags(reading: Reading, found: readonly Problem[]): Reading {
  if (found.length === 0) return reading;
  return {
    ...reading,
    flags: [...reading.flags, ...found],
    proposedValidity: reading.proposedValidity === 'valid' ? 'needs a look' : reading.proposedValidity,
  };
}

/** A file whose numbers are, in other bytes, those of another run's: told on both. */
export function nearDuplicate(file: string, other: { run: string; file: string }): Problem {
  return {
    code: 'run.near-duplicate',
    file: shown(file),
    detail: `${shown(file)} holds the same numbers as ${shown(other.file)} of run ${other.run}, in other bytes.`,
    action:
      'No two parts give the same numbers. Find out of which one this is the record, and make the other run void.',
  };
}
