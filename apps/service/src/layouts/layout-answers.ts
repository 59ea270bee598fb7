import { Layout, Problem } from '@breakbook/lab';
import type { LayoutProposal, LayoutTrial } from '@breakbook/signals';
import { z } from 'zod';

const File = z.string().meta({ wire: { type: 'string', format: 'binary' } });

/** A file of a rig, of which nothing is kept. */
export const ProposalForm = z.strictObject({ file: File });
/** A file, and the layout that it is to be read by. */
export const TrialForm = z.strictObject({ layout: Layout, file: File });

/** What a file says of how it is written; a layout in which an empty text stands for what the file does not say. */
export const ProposalAnswer = z.strictObject({
  layout: z.record(z.string(), z.unknown()),
  understood: z.array(z.strictObject({ what: z.string(), found: z.string() })),
  columns: z.array(
    z.strictObject({
      column: z.number().int(),
      name: z.string(),
      unit: z.string().optional(),
      first: z.array(z.string()),
      words: z.array(z.string()),
    }),
  ),
  doubts: z.array(z.string()),
  toFill: z.array(z.string()),
});
export type ProposalAnswer = z.infer<typeof ProposalAnswer>;

export function proposalAnswer({ columns, ...proposal }: LayoutProposal): ProposalAnswer {
  return {
    ...proposal,
    columns: columns.map(({ unit, ...column }) => ({ ...column, ...(unit === undefined ? {} : { unit }) })),
  };
}

/** What a layout makes of a file: all of it read, with its first rows, or all that stands against it. */
export const TrialAnswer = z.discriminatedUnion('read', [
  z.strictObject({
    read: z.literal(true),
    bytes: z.number().int(),
    sha256: z.string(),
    rows: z.number().int(),
    columns: z.array(
      z.strictObject({
        column: z.number().int(),
        name: z.string(),
        unit: z.string(),
        channel: z.string().optional(),
        readings: z.number().int(),
        smallest: z.number().optional(),
        largest: z.number().optional(),
      }),
    ),
    flags: z.array(Problem),
    first: z.array(z.array(z.number().nullable())),
  }),
  z.strictObject({ read: z.literal(false), problems: z.array(Problem), problemCount: z.number().int() }),
]) satisfies z.ZodType<LayoutTrial>;
export type TrialAnswer = z.infer<typeof TrialAnswer>;
