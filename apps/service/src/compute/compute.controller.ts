import { Refusal } from '@breakbook/lab';
import type { ComputeReply, MethodEntry } from '@breakbook/statistics';
import { Controller, Get, HttpCode, Post, Req } from '@nestjs/common';
import { RouteConfig } from '@nestjs/platform-fastify';
import type { FastifyRequest } from 'fastify';
import { statistics } from '../arithmetic.js';
import { Answers } from '../openapi/answers.decorator.js';
import { Reads } from '../openapi/reads.decorator.js';
import { Duty } from '../sign-in/duty.decorator.js';
import { Workers } from '../workers/workers.js';
import { AnySchema, Asked, Calculated, MethodList } from './compute-answers.js';

/** A calculation in a thread of its own may take this long, in ms; a longer one is for the command line. */
const LONGEST = 60_000;
const LARGEST_BODY = 32 * 1024 * 1024;

/** The calculator: published methods on numbers that anybody may send. Nothing is kept. */
@Controller('api/compute')
export class ComputeController {
  constructor(private readonly workers: Workers) {}

  @Get('methods')
  @Duty('signed in')
  @Answers('Every method with its inputs, units, assumptions and source', MethodList)
  async methods(): Promise<{ items: MethodEntry[] }> {
    const { listMethods } = await statistics();
    return { items: listMethods() };
  }

  @Get('schema')
  @Duty('signed in')
  @Answers('The JSON Schema of a request, one form for each method', AnySchema)
  async schema(): Promise<Record<string, unknown>> {
    const { methodSchema } = await statistics();
    return methodSchema();
  }

  @Post()
  @HttpCode(200)
  @Duty('signed in')
  @RouteConfig({ unread: true, largestBody: LARGEST_BODY })
  @Reads({ body: Asked })
  @Answers('Calculate', Calculated)
  async compute(@Req() { body }: FastifyRequest): Promise<Exclude<ComputeReply, { error: unknown }>> {
    if (!(body instanceof Uint8Array))
      throw new Refusal({ code: 'body.empty', detail: 'The body is empty; one JSON object is needed.' });
    const reply = await this.workers
      .run('compute', { body }, { signal: AbortSignal.timeout(LONGEST) })
      .catch((error: unknown) => {
        throw error instanceof DOMException && error.name === 'TimeoutError' ? tooLong() : error;
      });
    if (!('error' in reply)) return reply;
    const { code, message, pointer } = reply.error;
    throw new Refusal({ code, pointer, detail: message });
  }
}

function tooLong(): Refusal {
  return new Refusal({
    code: 'service.busy',
    detail: `This calculation takes longer than ${LONGEST / 1000} s here, and was given up.`,
    action: 'Run it with the command "breakbook compute", or with fewer values or replicates.',
  });
}
