import { z } from 'zod';
import { ChannelName } from './methods.js';
import { UnitCode } from './quantity.js';
import { Day, Key, Line, Paragraph, Revision } from './text.js';

/** How measurement uncertainty enters a verdict (ISO/IEC 17025:2017, 3.7). */
export const DecisionRule = z.discriminatedUnion('rule', [
  /** The value against the limit as it stands. */
  z.strictObject({ rule: z.literal('simple') }),
  /** The limit moved by a guard band w = r·U towards the safe side; two outcomes. */
  z.strictObject({ rule: z.literal('guarded'), r: z.number().positive().max(2) }),
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

/** One revision of a limit on one characteristic. */
export const Limit = z.discriminatedUnion('bound', [
  z.strictObject({ bound: z.literal('at least'), ...common, value: z.number(), unit: UnitCode }),
  z.strictObject({ bound: z.literal('at most'), ...common, value: z.number(), unit: UnitCode }),
  z.strictObject({ bound: z.literal('between'), ...common, lower: z.number(), upper: z.number(), unit: UnitCode }),
]);
export type Limit = z.infer<typeof Limit>;

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
