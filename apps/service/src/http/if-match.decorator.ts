import { Refusal, shown } from '@breakbook/lab';
import { createParamDecorator, type ExecutionContext } from '@nestjs/common';
import type { FastifyRequest } from 'fastify';

/** Reads from a request which version its sender has seen. */
export function versionSeen(_: unknown, context: ExecutionContext): number {
  const given = context.switchToHttp().getRequest<FastifyRequest>().headers['if-match'];
  if (given === undefined || given === '*')
    throw new Refusal({
      code: 'version.required',
      detail: 'A change says which version it follows, so that nobody overwrites what another has written meanwhile.',
      expected: 'If-Match: "3"',
      action: 'Read the version in force, and send its ETag in the header If-Match.',
    });
  const version = /^"([1-9]\d{0,8})"$/.exec(given)?.[1];
  if (version === undefined)
    throw new Refusal({
      code: 'version.stale',
      found: shown(given),
      detail: `If-Match is ${shown(given)}, which is the ETag of no version.`,
      action: 'Read the version in force, and send its ETag as it was given, with its quotes.',
    });
  return Number(version);
}

/** Hands a route the version that the change follows; refused where the request names none (RFC 9110, 13.1.1). */
export const IfMatch = createParamDecorator(versionSeen);
