import { unitSymbol } from '@breakbook/units';
import { z } from 'zod';
import { UnitCode } from './quantity.js';
import { CharacteristicValue } from './results.js';
import { Day, Key, Line, Paragraph } from './text.js';

/** How valid a result was by the word of whoever handed the table on; this lab decided nothing of it. */
export const ToldValidity = z.enum(['valid', 'valid with deviation', 'invalid', 'unknown']);
export type ToldValidity = z.infer<typeof ToldValidity>;

/**
 * A result of earlier days as a row of a table tells it. No raw file stands behind it and nothing of it can be computed
 * again, so it is no run, and enters no verdict and no judgement.
 */
export const OldResult = z.strictObject({
  /** Physical line in the table, from 1. */
  line: z.number().int().min(2),
  product: Key,
  /** As the table calls it, whether the lab has such a lot or not. */
  lot: Line,
  /** Serial or name of the part. */
  specimen: Line,
  test: Line,
  characteristic: Line,
  unit: UnitCode,
  /** Of a pressure, where the table says it. */
  reference: z.enum(['gauge', 'absolute']).optional(),
  value: CharacteristicValue,
  /** The cells that the value was read from, letter by letter: one, or lower and upper. */
  written: z.array(z.string().max(100)).min(1).max(2),
  /** Left out where the table says that it is unknown. */
  date: Day.optional(),
  /** Left out where the table says that it is unknown. */
  rig: Line.optional(),
  /** Who tested, or where the row was taken from. */
  source: Line,
  validity: ToldValidity,
  remark: Paragraph.optional(),
});
export type OldResult = z.infer<typeof OldResult>;

/** What stands beside an old result wherever it is shown. */
export const OLD_RESULT_MARK = 'told by a table, no raw file, not recomputable';

/** Why no judgement counts them: said wherever a judgement stands near. */
export const OLD_RESULTS_COUNT_NOWHERE =
  'They enter no verdict, no judgement of a lot and no claim: no plan has a rule that pools them.';

/** The value with the digits that the table has; never more and never fewer. */
export function oldValueInWords({ value, written, unit, reference }: OldResult): string {
  const [first = '', second = ''] = written;
  const symbol = unitSymbol(unit);
  const after = [symbol, reference].filter((word) => word !== undefined && word !== '').join(' ');
  const said = {
    exact: first,
    atLeast: `at least ${first}`,
    atMost: `at most ${first}`,
    between: `between ${first} and ${second}`,
  }[value.kind];
  return after === '' ? said : `${said} ${after}`;
}
