import { Key, LabelCode, LabelGridName, Language, PLAIN_PRINT, PrintChoice } from '@breakbook/lab';
import { z } from 'zod';

const { paper, units } = PrintChoice.shape;

const PRINT = {
  paper: paper.default(PLAIN_PRINT.paper),
  language: Language.default(PLAIN_PRINT.language),
  /** Of what is kept in others; nothing that is stored changes. */
  units: units.default(PLAIN_PRINT.units),
};

const LABELS = {
  grid: LabelGridName.default('A4, 24 of 70 × 37 mm'),
  code: LabelCode.default('data matrix'),
  language: PRINT.language,
};

/** The sheet of a run, and how it is printed. */
export const NewRunSheet = z.strictObject({ kind: z.literal('run sheet'), ...PRINT });
export type NewRunSheet = z.infer<typeof NewRunSheet>;

/** The record of a specimen, and how it is printed. */
export const NewSpecimenRecord = z.strictObject({ kind: z.literal('specimen record'), ...PRINT });
export type NewSpecimenRecord = z.infer<typeof NewSpecimenRecord>;

/** Labels of a lot's specimens, and on which sheet they lie. */
export const NewLabelSheet = z.strictObject({
  kind: z.literal('label sheet'),
  ...LABELS,
  /** Places at the start of the first sheet whose labels are used up. */
  used: z.number().int().min(0).max(39).default(0),
  /** Of these only; of all where none is named. */
  specimens: z.array(Key).min(1).max(1000).optional(),
});
export type NewLabelSheet = z.infer<typeof NewLabelSheet>;

/** What the jobs are asked for. */
export const RunSheetAsked = NewRunSheet.omit({ kind: true }).extend({ run: Key });
export const SpecimenRecordAsked = NewSpecimenRecord.omit({ kind: true }).extend({ specimen: Key });
export const LabelSheetAsked = NewLabelSheet.omit({ kind: true }).extend({ lot: Key });
