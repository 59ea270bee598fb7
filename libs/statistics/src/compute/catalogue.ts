import { z } from 'zod';
import { computeMethods } from './registry.js';

/** One method as it is printed in a list. */
export interface MethodEntry {
  method: string;
  question: string;
  inputs: { name: string; required: boolean; description: string }[];
  result: { name: string; description: string }[];
  assumptions: string[];
  source: string;
}

/** Every method with its inputs and their units, what it gives, what it assumes and where it comes from. */
export function listMethods(): MethodEntry[] {
  return computeMethods.map(({ method, question, inputs, result, assumptions, source }) => ({
    method,
    question,
    inputs: Object.entries(inputs.shape).map(([name, schema]) => ({
      name,
      required: !z.safeParse(schema as z.ZodType, undefined).success,
      description: (schema as z.ZodType).description ?? '',
    })),
    result: Object.entries(result).map(([name, description]) => ({ name, description })),
    assumptions,
    source,
  }));
}

/** The JSON Schema of a request, made from the very definitions that read it: one form per method. */
export function methodSchema(): Record<string, unknown> {
  return {
    $schema: 'https://json-schema.org/draft/2020-12/schema',
    title: 'A calculation asked for by name',
    oneOf: computeMethods.map(({ method, question, inputs }) => {
      const { $schema: _, properties, required, ...rest } = z.toJSONSchema(inputs, { io: 'input' });
      return {
        title: method,
        description: question,
        ...rest,
        properties: { method: { const: method }, ...properties },
        required: ['method', ...(required ?? [])],
      };
    }),
  };
}
