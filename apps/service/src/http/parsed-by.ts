import { Refusal, schemaProblems } from '@breakbook/lab';
import type { PipeTransform } from '@nestjs/common';
import type { z } from 'zod';

/** A pipe that knows what it reads: the interface's description is made from the very schema that checks. */
export interface ReadingPipe<T extends z.ZodType> extends PipeTransform<unknown, z.infer<T>> {
  readonly reads: T;
}

/** A pipe that gives a route what its schema describes, or refuses with code and pointer for every issue. */
export function parsedBy<T extends z.ZodType>(schema: T): ReadingPipe<T> {
  return {
    reads: schema,
    transform(value: unknown) {
      if (value === undefined)
        throw new Refusal({ code: 'body.empty', detail: 'The body is empty; one JSON object is needed.' });
      if (typeof value !== 'object' || value === null || Array.isArray(value))
        throw new Refusal({ code: 'body.not-object', pointer: '', detail: 'The body must be one JSON object.' });
      const parsed = schema.safeParse(value);
      if (parsed.success) return parsed.data;
      throw new Refusal(schemaProblems(parsed.error, value));
    },
  };
}
