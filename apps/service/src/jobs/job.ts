import { type Problem } from '@breakbook/lab';

/** What can be asked for, and of what. */
export interface JobSubjects {
  'lot evaluation': { lot: string };
  'lot test report': { evaluation: number; paper: 'A4' | 'Letter' };
}
export type JobKind = keyof JobSubjects;

/** What was asked for, by whom. */
export interface Job<Kind extends JobKind = JobKind> {
  id: string;
  labId: string;
  personId: string;
  at: Date;
  kind: Kind;
  subject: JobSubjects[Kind];
}

export const JOB_STATES = ['waiting', 'running', 'done', 'failed', 'cancelled'] as const;
export type JobState = (typeof JOB_STATES)[number];

/** A job as whoever asked for it sees it. */
export interface JobAnswer {
  id: string;
  kind: JobKind;
  subject: JobSubjects[JobKind];
  askedBy: string;
  askedAt: string;
  state: JobState;
  /** How far it is, a fraction, and what it is at; while it runs. */
  progress?: { share: number; at: string };
  /** What came of it, by its short number. */
  evaluation?: number;
  document?: number;
  /** Why it failed. */
  problems?: Problem[];
}
