import type { NotEvaluated } from '@breakbook/lab';
import type { z } from 'zod';

/** A calculation that can be asked for by name. */
export interface Method {
  method: string;
  /** What it answers, one sentence. */
  question: string;
  /** Checks the inputs, refuses those it does not know, and describes each with its unit. */
  inputs: z.ZodObject;
  /** What each part of the result means, and its unit; a dot leads into a part. */
  result: Record<string, string>;
  assumptions: string[];
  source: string;
  run(inputs: unknown): object | NotEvaluated;
}

/** A method whose `run` receives what its inputs schema makes of them. */
export function defineMethod<Inputs extends z.ZodObject>(
  definition: Omit<Method, 'inputs' | 'run'> & {
    inputs: Inputs;
    run(inputs: z.infer<Inputs>): object | NotEvaluated;
  },
): Method {
  // `compute` hands over only what this same schema has read.
  return { ...definition, run: (inputs) => definition.run(inputs as z.infer<Inputs>) };
}
