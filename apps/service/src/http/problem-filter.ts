import { randomUUID } from 'node:crypto';
import { type ProblemCode, Refusal } from '@breakbook/lab';
import { type ArgumentsHost, Catch, type ExceptionFilter, HttpException } from '@nestjs/common';
import { type FastifyReply, type FastifyRequest } from 'fastify';
import { type Logger } from 'pino';
import { statusOf, titleOf } from './problem-statuses.js';

/** Statuses that the framework answers by itself, in the words of the closed list. */
const FRAMEWORK: Record<number, { code: ProblemCode; detail: string }> = {
  400: { code: 'request.malformed', detail: 'The request could not be read. Check its form and send it again.' },
  404: { code: 'request.not-found', detail: 'There is nothing at this address, or it is not yours to see.' },
  405: { code: 'request.method', detail: 'This address does not take that method.' },
  406: { code: 'request.not-acceptable', detail: 'The answer cannot be given in the form asked for.' },
  411: { code: 'request.no-length', detail: 'The length of the body is needed.' },
  413: { code: 'body.too-large', detail: 'The body is larger than this address takes.' },
  414: { code: 'request.too-long', detail: 'The address is too long.' },
  415: { code: 'body.media-type', detail: 'This address does not take a body of that type.' },
  431: { code: 'request.too-long', detail: 'The request head is too long.' },
};

/** Every answer that is not a success, from the framework's own errors too, as RFC 9457 problem details. */
@Catch()
export class ProblemFilter implements ExceptionFilter {
  constructor(private readonly log: Logger) {}

  catch(error: unknown, host: ArgumentsHost): void {
    const http = host.switchToHttp();
    const request = http.getRequest<FastifyRequest>();
    const reply = http.getResponse<FastifyReply>();
    const id = randomUUID();
    const answer = this.answerTo(error, id, request);
    reply
      .status(answer.status)
      .header('content-type', 'application/problem+json; charset=utf-8')
      .header('cache-control', 'no-store');
    if (answer.status === 503) reply.header('retry-after', '5');
    reply.send(JSON.stringify(answer));
  }

  private answerTo(error: unknown, id: string, request: FastifyRequest): { status: number } & Record<string, unknown> {
    if (error instanceof Refusal) return refusalAnswer(error, id);
    const status = frameworkStatus(error);
    const known = status === undefined ? undefined : FRAMEWORK[status];
    if (status !== undefined && known) return refusalAnswer(new Refusal(known), id, status);

    // The whole cause goes to the log only: an answer must not tell what the house is made of.
    this.log.error({ err: error, id, method: request.method, url: request.url }, 'a request failed');
    return {
      ...refusalAnswer(
        new Refusal({
          code: 'internal',
          detail: `This was our fault, not your input. Try again; if it stays, tell the lab's administrator the id ${id}.`,
        }),
        id,
      ),
    };
  }
}

function frameworkStatus(error: unknown): number | undefined {
  if (error instanceof HttpException) return error.getStatus();
  if (typeof error === 'object' && error !== null && 'statusCode' in error && typeof error.statusCode === 'number')
    return error.statusCode;
  return undefined;
}

function refusalAnswer(
  refusal: Refusal,
  id: string,
  status = statusOf(refusal.code),
): { status: number } & Record<string, unknown> {
  const [first] = refusal.problems;
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
