import { Fraction } from '@breakbook/lab';
import { z } from 'zod';
import { expandedUncertainty } from '../../uncertainty/expanded-uncertainty.js';
import { Above0, Finite } from '../inputs-of-comparison.js';
import { defineMethod } from '../method.js';

const Place = z.number().int().min(0);

export const combineUncertaintyMethod = defineMethod({
  method: 'combine-uncertainty',
  question: 'How uncertain is a result that rests on several sources, and how wide is its expanded uncertainty?',
  inputs: z
    .strictObject({
      components: z
        .array(
          z.strictObject({
            u: Above0,
            degreesOfFreedom: Above0.optional(),
            sensitivity: Finite.optional(),
          }),
        )
        .min(1)
        .max(1000)
        .describe(
          'for each source: standard uncertainty u in its own unit, degreesOfFreedom (left out: u is known without doubt), ' +
            'sensitivity (what the result moves by per unit of it; 1 if left out)',
        ),
      correlations: z
        .array(z.strictObject({ i: Place, j: Place, r: z.number().min(-1).max(1) }))
        .optional()
        .describe('pairs of components that err together, i and j counted from 0, r between -1 and 1'),
      coverage: Fraction.describe('probability the expanded uncertainty is to cover, two-sided, a fraction'),
    })
    .superRefine(({ components, correlations }, context) => {
      const seen = new Set<string>();
      for (const [index, { i, j }] of (correlations ?? []).entries()) {
        const refuse = (message: string) =>
          context.addIssue({ code: 'custom', path: ['correlations', index], message, params: { code: 'body.range' } });
        const pair = `${Math.min(i, j)}, ${Math.max(i, j)}`;
        if (i === j) refuse(`a component does not err together with itself; got ${i} twice`);
        else if (Math.max(i, j) >= components.length)
          refuse(`there are ${components.length} components, counted from 0; got ${Math.max(i, j)}`);
        else if (seen.has(pair)) refuse(`components ${pair} are already joined above; give each pair once`);
        seen.add(pair);
      }
    }),
  result: {
    combined: 'combined standard uncertainty, unit of the result',
    contributions: 'for each component, named by its place: |sensitivity| u, unit of the result',
    effectiveDegreesOfFreedom: 'a number, or unlimited',
    k: "Student's t at the effective degrees of freedom, cut down to a whole number",
    expanded: 'k combined, unit of the result',
    coverage: 'as given, a fraction',
  },
  assumptions: [
    'the result is close to linear over the width of each source',
    'effective degrees of freedom: sources are independent (with correlations they are not evaluated)',
  ],
  source: 'JCGM 100:2008 (GUM), 5.1.2, 5.2.2, 6.2.1, G.4.1 and G.6.4',
  run: ({ components, correlations = [], coverage }) =>
    expandedUncertainty(
      components.map(({ u, degreesOfFreedom, sensitivity }, index) => ({
        name: String(index),
        u,
        ...(degreesOfFreedom === undefined ? {} : { degreesOfFreedom }),
        ...(sensitivity === undefined ? {} : { sensitivity }),
      })),
      correlations.map(({ i, j, r }) => ({ between: [String(i), String(j)] as const, r })),
      coverage,
    ),
});
