import { type MarginStripInput, type TracePlotInput, type WeibullPlotInput } from '@breakbook/figures';
import {
  type Calibration,
  type Duty,
  type Lot,
  type LotBundle,
  type LotOutcome,
  type LotResult,
  type Measurement,
  type NotEvaluated,
  type Problem,
  type Reading,
  type Rig,
  type Run,
  type RunJudgement,
  type SensorPlacement,
  type Specimen,
  type Validity,
} from '@breakbook/lab';

/** The answers of the service, as its addresses give them. */

/** Who is signed in. */
export interface Myself {
  lab: { lab: string; name: string };
  person: string;
  name: string;
  role: string;
  duties: Duty[];
  /** The passphrase was given by somebody else; until an own one is chosen nothing else is open. */
  givenPassphrase: boolean;
}

/** A piece of a list, and where the next begins. */
export interface PageOf<T> {
  items: T[];
  next: string | null;
}

export interface LotInList {
  lot: string;
  kind: Lot['kind'];
  size: number;
  product: { product: string; name: string };
  /** Closed to further specimens and runs. */
  closed: boolean;
  /** What the last evaluation came to. */
  evaluation: LotStanding | NotEvaluated;
}

export interface LotStanding {
  plan: { plan: string; revision: number };
  outcome: LotOutcome;
  sentence: string;
  strip?: MarginStripInput;
}

export interface LotAnswer {
  bundle: LotBundle;
  lot: LotResult;
  judgements: RunJudgement[];
  readings: Reading[];
  /** Runs whose files were refused, with what was wrong in them. */
  refusals: { run: string; problems: Problem[] }[];
  figures: LineFigures[];
}

export interface LineFigures {
  line: string;
  marginStrip: MarginStripInput | null;
  probabilityPlot: WeibullPlotInput | null;
}

export interface RunAnswer {
  run: Run;
  /** Missing where the run's files were refused. */
  reading: Reading | null;
  judgement: RunJudgement | null;
  specimen: Specimen;
  trace: TracePlotInput | null;
}

/** A thing of the lab as it is kept: its name and number, the version in force, who said it, when and why. */
export interface Kept<C> extends KeptVersion<C> {
  key: string;
  number: number;
}

export interface KeptVersion<C> {
  version: number;
  at: string;
  by: string;
  reason?: string;
  content: C;
}

/** A lot as it is on record, evaluated or not. */
export type LotRecord = Kept<Omit<Lot, 'sampling'>> & { closed: boolean; sampling?: Lot['sampling'] };

/** A specimen, and the run that destroyed it. */
export type SpecimenRecord = Kept<Specimen> & { destroyedIn?: string };

export type RigRecord = Kept<Omit<Rig, 'placements'>>;
export type PlacementRecord = KeptVersion<SensorPlacement> & { placement: string };
export type CalibrationRecord = Kept<Calibration>;

export interface RunInList {
  run: string;
  number: number;
  lot: string;
  specimen: string;
  planLine: string;
  rig?: string;
  operator: string;
  recordedBy: string;
  startedAt: string;
  endReason?: NonNullable<Run['examination']>['endReason'];
  validity: Validity | 'not decided';
  invalidReason?: NonNullable<Run['validity']>['reason'];
}

/** A run with the version that a decision about it follows. */
export interface RunRecord {
  number: number;
  version: number;
  recordedBy: string;
  recordedAt: string;
  lot: string;
  plan: { plan: string; revision: number };
  run: Run;
  measurements: { record: string; version: number; measurement: Measurement }[];
}

/** A run as it is sent: its files come beside it, its validity is decided by somebody else. */
export type NewRun = Omit<Run, 'files' | 'validity'> & { plan: { plan: string; revision: number } };

/** What whoever sent a run hears. */
export interface RecordedAnswer {
  run: string;
  number: number;
  lot: string;
  specimen: string;
  destroyed: boolean;
  flags: Reading['flags'];
  proposedValidity: Reading['proposedValidity'];
  files: { name: string; sha256: string; bytes: number }[];
}

/** The bytes of a refused run, and what became of them. */
export interface UnreadAnswer {
  id: string;
  number: number;
  sentBy: string;
  sentAt: string;
  parts: { name: string; sha256: string; size: number }[];
  problems: Problem[];
  problemCount: number;
  state: 'waiting' | 'read' | 'discarded';
  run?: string;
  closedBy?: string;
  reason?: string;
}

export interface JobAnswer {
  id: string;
  state: 'waiting' | 'running' | 'done' | 'failed' | 'cancelled';
  /** How far it is, a fraction, and what it is at; while it runs. */
  progress?: { share: number; at: string };
  askedBy: string;
  evaluation?: number;
  document?: number;
  problems?: Problem[];
}

export interface EvaluationInList {
  number: number;
  lot: string;
  plan: { plan: string; revision: number };
  outcome: LotOutcome;
  sentence: string;
  at: string;
  by: string;
  software: string;
  documents: number[];
}

export interface DocumentInList {
  number: number;
  kind: string;
  evaluation: number | null;
  lot: string | null;
  at: string;
  by: string;
  software: string;
  sha256: string;
  size: number;
}

export interface LedgerEntry {
  sequence: number;
  at: string;
  by: string;
  action: string;
  reason?: string;
  hash: string;
}

/** Whether everything is as it was written, or the first thing that is not. */
export type Verification =
  | { holds: true; entries: number; rows: number; files: number }
  | { holds: false; sequence?: number; table?: string; id?: string; because: string };
