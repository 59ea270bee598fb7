import { type Problem, Refusal, schemaProblems, shown } from '@breakbook/lab';
import type { z } from 'zod';
import type { ReadingPipe } from './parsed-by.js';

/**
 * A pipe that reads the query of an address. What the schema does not know is refused, and so is a name given twice:
 * a filter that is silently ignored answers another question than the one asked.
 */
export function queriedBy<T extends z.ZodType>(schema: T): ReadingPipe<T> {
  return {
    reads: schema,
    transform(value: unknown) {
      const query = { ...(value as Record<string, unknown>) };
      refuseDoubled(query);
      const parsed = schema.safeParse(query);
      if (parsed.success) return parsed.data;
      throw new Refusal(schemaProblems(parsed.error, query).map((problem) => inQuery(problem, query)));
    },
  };
}

/** Refuses every parameter, for an address that takes none. */
export function refuseQuery(query: Record<string, unknown>): void {
  const problems = Object.keys(query).map((name) => parameterProblem(name, 'is not known at this address. Remove it.'));
  if (problems.length > 0) throw new Refusal(problems);
}

/** What is wrong with one parameter of an address. */
export function parameterProblem(name: string, sentence: string, found?: unknown): Problem {
  const parameter = shown(name);
  return {
    code: 'query.invalid',
    parameter,
    detail: `Parameter ${parameter} ${sentence}`,
    ...(typeof found === 'string' ? { found: shown(found) } : {}),
  };
}

function refuseDoubled(query: Record<string, unknown>): void {
  const problems = Object.entries(query)
    .filter(([, value]) => Array.isArray(value))
    .map(([name]) => parameterProblem(name, 'is given more than once. Give it once.'));
  if (problems.length > 0) throw new Refusal(problems);
}

function inQuery({ code, pointer = '', detail, ...rest }: Problem, query: Record<string, unknown>): Problem {
  const name = pointer.slice(1).replaceAll('~1', '/').replaceAll('~0', '~');
  if (code === 'body.unknown-field') return parameterProblem(name, 'is not known at this address. Remove it.');
  if (query[name] === undefined) return parameterProblem(name, 'is needed at this address.');
  const { found: _, ...more } = rest;
  return { ...more, ...parameterProblem(name, detail.replace(/^[^:]*: /, ''), query[name]) };
}
