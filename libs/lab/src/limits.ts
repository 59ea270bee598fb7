import { z } from 'zod';
import { ChannelName, FailureModeCode } from './methods.js';
import { UnitCode } from './quantity.js';
import { Day, Key, Line, Paragraph, Revision } from './text.js';

/** How measurement uncertainty enters a verdict (ISO/IEC 17025:2017, 3.7). */
export const DecisionRule = z.discriminatedUnion('rule', [
  /** The value against the limit as it stands. */
  z.strictObject({ rule: z.literal('simple') }),
  /** The limit moved by a guard band w = r·U towards the safe side; two outcomes. */
  z.strictObject({ rule: z.literal('guarded'), r: z.number().positive().max(2) }),
  /** The same band on both sides of the limit; four outcomes, those inside the band conditional (ILAC-G8:09/2019, 4.2.3). */
  z.strictObject({ rule: z.literal('four zones'), r: z.number().positive().max(2) }),
]);
export type DecisionRule = z.infer<typeof DecisionRule>;

const common = {
  limit: Key,
  revision: Revision,
  title: Line,
  characteristic: ChannelName,
  basis: z.enum(['governing body', 'standard', 'regulation', 'customer', 'internal']),
  /** Use, market and brake kind it binds for, in words. */
  appliesTo: Line,
  source: Paragraph,
  edition: Line,
  inForceFrom: Day,
  approvedBy: Key,
  /** Fresh installations ship examples; only the lab can confirm a limit against its own copy of the source. */
  standing: z.enum(['confirmed by the lab', 'example to be confirmed']),
  decisionRule: DecisionRule,
};

/** How signs are looked for, and what is found by it: an attribute has no uncertainty, but a way of looking (ISO/IEC 17025:2017, 7.8.6). */
export const Inspection = z.strictObject({
  /** Such as "by eye at 300 mm under 1 000 lx, and a fingernail along the bead". */
  method: Line,
  /** What it can be relied on to find, such as "cracks of 10 mm or longer", and how that is known. */
  detects: Paragraph,
});

/** One revision of a limit on one characteristic. */
export const Limit = z.discriminatedUnion('bound', [
  z.strictObject({ bound: z.literal('at least'), ...common, value: z.number(), unit: UnitCode }),
  z.strictObject({ bound: z.literal('at most'), ...common, value: z.number(), unit: UnitCode }),
  z.strictObject({ bound: z.literal('between'), ...common, lower: z.number(), upper: z.number(), unit: UnitCode }),
  /** None of these signs, failure modes of the method, is found on the specimen. Its value is how many of them were. */
  z.strictObject({
    bound: z.literal('absent'),
    ...common,
    decisionRule: z.strictObject({ rule: z.literal('simple') }),
    signs: z.array(FailureModeCode).min(1),
    inspection: Inspection,
    unit: z.literal('1'),
  }),
]);
export type Limit = z.infer<typeof Limit>;
/** A limit on a quantity, and one on signs that must be absent. */
export type MeasuredLimit = Exclude<Limit, { bound: 'absent' }>;
export type AttributeLimit = Extract<Limit, { bound: 'absent' }>;

/** Internal limits are the maker's own; all others come from outside and are never conceded in claimed use. */
export function isExternal(limit: Limit): boolean {
  return limit.basis !== 'internal';
}

export const LimitRef = z.strictObject({ limit: Key, revision: Revision });
export type LimitRef = z.infer<typeof LimitRef>;

/** How a limit is written where it stands alone in a table or a sentence. */
export function limitName({ limit, revision }: LimitRef): string {
  return `${limit} rev. ${revision}`;
}
