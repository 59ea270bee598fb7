import { PLAIN_PRINT, PrintChoice } from '@breakbook/lab';
import { z } from 'zod';

const { paper, language, units } = PrintChoice.shape;

/** A document to be made of an evaluation, and how it is printed. */
export const NewDocument = z.strictObject({
  kind: z.literal('lot test report'),
  paper: paper.default(PLAIN_PRINT.paper),
  language: language.default(PLAIN_PRINT.language),
  /** Of what is kept in others; nothing that is stored changes. */
  units: units.default(PLAIN_PRINT.units),
});
export type NewDocument = z.infer<typeof NewDocument>;
