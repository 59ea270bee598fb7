import { z } from 'zod';
import { LabelCode, LabelGridName } from './label-grids.js';
import { PrintChoice } from './language.js';
import { Key } from './text.js';

/** Kinds of documents that are made of what is stored, without an evaluation. */
export const SheetKind = z.enum(['run sheet', 'specimen record', 'label sheet']);
export type SheetKind = z.infer<typeof SheetKind>;

/** At most so many documents in one batch. */
export const MOST_IN_BATCH = 2000;

/** What a batch is to make, fixed as it is begun. */
export const DocumentBatchContent = z.strictObject({
  kind: SheetKind,
  ...PrintChoice.shape,
  /** On which sheet labels lie, and with which code. */
  grid: LabelGridName,
  code: LabelCode,
  /** What each document is of: a run, a specimen, or the specimens whose labels lie on one sheet. */
  items: z.array(z.array(Key).min(1)).min(1).max(MOST_IN_BATCH),
});
export type DocumentBatchContent = z.infer<typeof DocumentBatchContent>;
