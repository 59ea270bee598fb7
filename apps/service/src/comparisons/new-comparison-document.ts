import { Key, Language, PLAIN_PRINT, PrintChoice } from '@breakbook/lab';
import { z } from 'zod';

const { paper, units } = PrintChoice.shape;

/** A report of what was concluded, and how it is printed. */
export const NewComparisonDocument = z.strictObject({
  kind: z.literal('comparison report'),
  paper: paper.default(PLAIN_PRINT.paper),
  language: Language.default(PLAIN_PRINT.language),
  /** Of what is kept in others; nothing that is stored changes. */
  units: units.default(PLAIN_PRINT.units),
});
export type NewComparisonDocument = z.infer<typeof NewComparisonDocument>;

/** What the job is asked for: the report of one conclusion, counted from 1. */
export const ComparisonReportAsked = NewComparisonDocument.omit({ kind: true }).extend({
  comparison: Key,
  conclusion: z.number().int().min(1),
});
