import { randomUUID } from 'node:crypto';
import { Problem, type ProblemCode, Refusal } from '@breakbook/lab';
import { z } from 'zod';
import { statusOf, titleOf } from './problem-statuses.js';

export const PROBLEM_TYPE = 'application/problem+json; charset=utf-8';

/** An answer that is not a success, as RFC 9457 has it, with the members of a problem. */
export const ProblemAnswer = z.strictObject({
  type: z.string().startsWith('/problems/'),
  title: z.string().min(1),
  status: z.number().int().min(400).max(599),
  ...Problem.shape,
  /** Of this answer, to be told to the lab's administrator. */
  instance: z.string().startsWith('/problems/'),
  /** The first hundred, where there are several. */
  errors: z.array(Problem).max(100).optional(),
  errorCount: z.number().int().optional(),
  /** What became of a run file that was refused. */
  stored: z.union([z.literal(false), z.literal('unread')]).optional(),
  unreadFileId: z.string().optional(),
});
export type ProblemAnswer = z.infer<typeof ProblemAnswer>;

/** What the answer to a refused request says. Where the status is not the one of its code, it is named. */
export function problemDetails(refusal: Refusal, status = statusOf(refusal.code), id = randomUUID()): ProblemAnswer {
  const [first = { code: refusal.code, detail: refusal.message }] = refusal.problems;
  const more = refusal.problemCount > 1 ? { errors: refusal.problems, errorCount: refusal.problemCount } : {};
  return {
    type: `/problems/${refusal.code}`,
    title: titleOf(refusal.code),
    status,
    ...first,
    instance: `/problems/${id}`,
    ...more,
    ...refusal.stored,
  };
}

/** Statuses that the framework answers by itself, in the words of the closed list. */
const FRAMEWORK: Record<number, { code: ProblemCode; detail: string; action?: string }> = {
  400: { code: 'request.malformed', detail: 'The request could not be read. Check its form and send it again.' },
  404: { code: 'request.not-found', detail: 'There is nothing at this address, or it is not yours to see.' },
  405: { code: 'request.method', detail: 'This address does not take that method.' },
  406: { code: 'request.not-acceptable', detail: 'The answer cannot be given in the form asked for.' },
  411: {
    code: 'request.no-length',
    detail: 'Content-Type announces a body, but nothing says how long it is, so it would be taken for empty.',
    action: 'Send Content-Length, or Transfer-Encoding: chunked.',
  },
  412: { code: 'version.stale', detail: 'What is at this address is not the version that If-Match names.' },
  413: {
    code: 'body.too-large',
    detail: 'The body is larger than this address takes.',
    action: 'Send less at a time. docs/openapi.json names the largest body of each address.',
  },
  414: { code: 'request.too-long', detail: 'The address is too long. Shorten it and try again.' },
  415: { code: 'body.media-type', detail: 'This address does not take a body of that type.' },
  431: { code: 'request.too-long', detail: 'The request head is too long. Send fewer or shorter headers.' },
};

/** What the framework refused by its own status; undefined where that says nothing to whoever asked. */
export function frameworkRefusal(status: number | undefined): Refusal | undefined {
  const known = status === undefined ? undefined : FRAMEWORK[status];
  return known && new Refusal(known);
}
