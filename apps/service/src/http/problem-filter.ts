import { randomUUID } from 'node:crypto';
import { Refusal } from '@breakbook/lab';
import { type ArgumentsHost, Catch, type ExceptionFilter, HttpException } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import type { Logger } from 'pino';
import { databaseRefusal } from './database-away.js';
import { frameworkRefusal, PROBLEM_TYPE, type ProblemAnswer, problemDetails } from './problem-details.js';
import { RetryLater } from './retry-later.js';

/** Every answer that is not a success, from the framework's own errors too, as RFC 9457 problem details. */
@Catch()
export class ProblemFilter implements ExceptionFilter {
  constructor(private readonly log: Logger) {}

  catch(error: unknown, host: ArgumentsHost): void {
    const http = host.switchToHttp();
    const request = http.getRequest<FastifyRequest>();
    const reply = http.getResponse<FastifyReply>();
    const answer = this.answerTo(error, request);
    reply.status(answer.status).header('content-type', PROBLEM_TYPE).header('cache-control', 'no-store');
    if (error instanceof RetryLater) reply.header('retry-after', String(error.seconds));
    else if (answer.status === 503) reply.header('retry-after', '5');
    reply.send(JSON.stringify(answer));
  }

  private answerTo(error: unknown, request: FastifyRequest): ProblemAnswer {
    if (error instanceof Refusal) return problemDetails(error);
    const status = frameworkStatus(error);
    const known = frameworkRefusal(status);
    if (known) return problemDetails(known, status);
    const away = databaseRefusal(error);
    if (away) {
      this.log.warn({ err: error, method: request.method, url: request.url }, 'the database failed a request');
      return problemDetails(away);
    }

    // The whole cause goes to the log only: an answer must not tell what the house is made of.
    const id = randomUUID();
    this.log.error({ err: error, id, method: request.method, url: request.url }, 'a request failed');
    const fault = new Refusal({
      code: 'internal',
      detail: `This was our fault, not your input. Try again; if it stays, tell the lab's administrator the id ${id}.`,
    });
    return problemDetails(fault, 500, id);
  }
}

function frameworkStatus(error: unknown): number | undefined {
  if (error instanceof HttpException) return error.getStatus();
  if (typeof error === 'object' && error !== null && 'statusCode' in error && typeof error.statusCode === 'number')
    return error.statusCode;
  return undefined;
}
