import { Instant, Key, Paragraph, PrintChoice, Problem } from '@breakbook/lab';
import { z } from 'zod';
import { ComparisonReportAsked } from '../comparisons/new-comparison-document.js';
import { BatchAsked } from '../documents/batches/batch-answer.js';
import { LabelSheetAsked, RunSheetAsked, SpecimenRecordAsked } from '../documents/sheets/sheet-asked.js';

/** What changed against the document that it replaces, and why; where it replaces one. */
export const AmendmentFields = { changed: Paragraph.optional(), because: Paragraph.optional() };

/** What can be asked for, and of what. */
const SUBJECTS = {
  'lot evaluation': z.strictObject({ lot: Key }),
  /** Jobs of before there were languages name none. */
  'lot test report': z.strictObject({
    evaluation: z.number().int(),
    paper: PrintChoice.shape.paper,
    language: PrintChoice.shape.language.optional(),
    units: PrintChoice.shape.units.optional(),
  }),
  'run sheet': RunSheetAsked,
  'specimen record': SpecimenRecordAsked,
  'label sheet': LabelSheetAsked,
  'document batch': BatchAsked,
  /** Of a document that is to be authorised and signed as it was shown. */
  'signed document': z.strictObject({ document: z.number().int(), ...AmendmentFields }),
  recomputation: z.strictObject({ runs: z.literal('all') }),
  comparison: z.strictObject({ comparison: Key }),
  'comparison report': ComparisonReportAsked,
  /** As evidence for the safety flag of this number, where it is one. */
  'lot package': z.strictObject({ lot: Key, form: z.literal('zip'), safetyFlag: z.number().int().optional() }),
};
export type JobKind = keyof typeof SUBJECTS;
export type JobSubjects = { [Kind in JobKind]: z.infer<(typeof SUBJECTS)[Kind]> };

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
export const JobAnswer = z.strictObject({
  id: z.uuid(),
  kind: z.enum(Object.keys(SUBJECTS) as [JobKind, ...JobKind[]]),
  subject: z.union(Object.values(SUBJECTS)),
  askedBy: z.string(),
  askedAt: Instant,
  state: z.enum(JOB_STATES),
  /** How far it is, a fraction, and what it is at; while it runs. */
  progress: z.strictObject({ share: z.number(), at: z.string() }).optional(),
  /** What came of it, by its short number. */
  evaluation: z.number().int().optional(),
  document: z.number().int().optional(),
  recomputation: z.number().int().optional(),
  comparisonResult: z.number().int().optional(),
  package: z.number().int().optional(),
  /** The batch of documents it makes or made, also while it does. */
  batch: z.number().int().optional(),
  /** Why it failed. */
  problems: z.array(Problem).optional(),
});
export type JobAnswer = z.infer<typeof JobAnswer>;
