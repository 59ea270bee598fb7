import type { Run } from '@breakbook/lab';

type Examination = NonNullable<Run['examination']>;
type Passage = NonNullable<Run['passages']>[number];

/** What has been typed of a run so far. Text stays text until it is sent, so that nothing typed is ever lost. */
export interface Draft {
  /** Made up once with the form: sending it again, now or after signing in again, makes no second run. */
  key: string;
  /** When it was first sent: what is sent again is the same to the letter, and so is taken for the same run. */
  sentAt?: string;
  /** Undefined while nobody has typed another number than the one proposed. */
  run?: string;
  specimen: string;
  rig: string;
  /** Plan, revision and line as one choice. */
  line: string;
  /** As the clock of the lab shows it: "2026-09-28T06:50:00". */
  startedAt: string;
  /** Lines of the method's readiness list that were confirmed, by their place, and when the last one was. */
  ready: number[];
  readyAt?: string;
  files: File[];
  passages: PassageDraft[];
  conditions: ConditionDraft[];
  measurements: MeasurementDraft[];
  endReason?: Examination['endReason'];
  /** In the order in which they came. */
  modes: { code: string; place: string }[];
  partSound?: Examination['partSound'];
  note: string;
  deviations: string;
  /** `shows` names one of the photos that the modes found ask for; empty for any other. */
  photos: { file: File; caption: string; shows: string }[];
  device: string;
}

export interface PassageDraft {
  id: string;
  kind: Passage['kind'];
  title: string;
  startedAt: string;
  place: string;
  /** Name of the file that recorded it; empty where one file covers the whole run. */
  file: string;
  target: string;
  targetUnit: string;
  found: NonNullable<Passage['found']> | '';
}

export interface ConditionDraft {
  id: string;
  name: string;
  /** A word, or a number where a unit is chosen. */
  value: string;
  unit: string;
}

export interface MeasurementDraft {
  id: string;
  of: string;
  value: string;
  unit: string;
  instrument: string;
  /** Whose value it is, where the lab did not measure it; empty where it did. */
  givenBy: NonNullable<Run['measurements'][number]['givenBy']> | '';
  place: string;
  passage: string;
  /** When it was read, on the clock of the lab. */
  at: string;
}

export function newDraft(specimen = ''): Draft {
  return {
    key: crypto.randomUUID(),
    specimen,
    rig: '',
    line: '',
    startedAt: '',
    ready: [],
    files: [],
    passages: [],
    conditions: [],
    measurements: [],
    modes: [],
    note: '',
    deviations: '',
    photos: [],
    device: '',
  };
}

/** Has anything been typed, beyond the specimen a link filled in? */
export function isBegun({ key: _, specimen: __, ...rest }: Draft): boolean {
  return Object.values(rest).some((value) => value !== undefined && value.length > 0);
}
