import { SetMetadata } from '@nestjs/common';
import type { z } from 'zod';

export const ANSWERS = Symbol('what a route answers');

export interface RouteAnswer {
  /** What the route does, in one line for whoever reads the interface's description. */
  summary: string;
  /** Form of the answer; none where it has no body, or one that is not JSON. */
  answer?: z.ZodType;
}

/**
 * Says what a route does and in which form it answers. With the schemas that read its body and query this is all the
 * interface's description is made from; a route without it fails a test.
 */
export function Answers(summary: string, answer?: z.ZodType) {
  const said: RouteAnswer = { summary, ...(answer ? { answer } : {}) };
  return SetMetadata(ANSWERS, said);
}
