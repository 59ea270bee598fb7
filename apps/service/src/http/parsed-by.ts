import { Refusal, schemaProblems } from '@breakbook/lab';
import { type PipeTransform } from '@nestjs/common';
import { type z } from 'zod';

/** A pipe that gives a route what its schema describes, or refuses with code and pointer for every issue. */
export function parsedBy<T extends z.ZodType>(schema: T): PipeTransform<unknown, z.infer<T>> {
  return {
    transform(value: unknown) {
      if (typeof value !== 'object' || value === null || Array.isArray(value))
        throw new Refusal({ code: 'body.not-object', pointer: '', detail: 'The body must be one JSON object.' });
      const parsed = schema.safeParse(value);
      if (parsed.success) return parsed.data;
      throw new Refusal(schemaProblems(parsed.error, value));
    },
  };
}
