import { z } from 'zod';

/** One method as the calculator lists it. */
const Method = z.strictObject({
  method: z.string(),
  question: z.string(),
  inputs: z.array(z.strictObject({ name: z.string(), required: z.boolean(), description: z.string() })),
  result: z.array(z.strictObject({ name: z.string(), description: z.string() })),
  assumptions: z.array(z.string()),
  source: z.string(),
});
export const MethodList = z.strictObject({ items: z.array(Method) });

/** A calculation asked for by name; its inputs stand beside the name, as /api/compute/schema describes them. */
export const Asked = z.looseObject({ method: z.string() });

/** What came out under the name of the method, or why nothing could. */
export const Calculated = z.union([
  z.strictObject({ method: z.string(), result: z.looseObject({}) }),
  z.strictObject({
    method: z.string(),
    notEvaluated: z.strictObject({ because: z.string(), possibleIf: z.string() }),
  }),
]);

/** A JSON Schema. */
export const AnySchema = z.looseObject({});
