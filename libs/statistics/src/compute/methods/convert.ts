import { convert, sameDimension, unitByCode } from '@breakbook/units';
import { z } from 'zod';
import { defineMethod } from '../method.js';

const UnitCode = z
  .string()
  .max(100)
  .refine((code) => unitByCode(code) !== undefined, {
    error: 'is no UCUM unit code; write kPa, N, kg, [psi], Cel and the like',
    params: { code: 'unit.unknown' },
  });

export const convertMethod = defineMethod({
  method: 'convert',
  question: 'What is this value in another unit?',
  inputs: z
    .strictObject({
      value: z.number().describe('in the unit `from`'),
      from: UnitCode.describe('UCUM code'),
      to: UnitCode.describe('UCUM code of the same kind of quantity'),
      difference: z
        .boolean()
        .optional()
        .describe('true for a difference or an uncertainty, whose scales have no zero point (false if left out)'),
    })
    .superRefine(({ from, to }, context) => {
      if (unitByCode(from) !== undefined && unitByCode(to) !== undefined && !sameDimension(from, to))
        context.addIssue({
          code: 'custom',
          path: ['to'],
          message: `${from} does not convert into ${to}: they measure different things`,
          params: { code: 'unit.wrong-dimension' },
        });
    }),
  result: { value: 'in the unit `to`' },
  assumptions: ['pressures and temperatures are of one kind on both sides: gauge stays gauge, absolute stays absolute'],
  source: 'NIST SP 811 (2008), appendix B; the Unified Code for Units of Measure (UCUM)',
  run: ({ value, from, to, difference = false }) => ({ value: convert(value, from, to, { difference }), unit: to }),
});
