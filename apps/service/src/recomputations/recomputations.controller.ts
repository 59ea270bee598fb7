import { Controller, Get, HttpCode, Param, Post, Res } from '@nestjs/common';
import type { FastifyReply } from 'fastify';
import { z } from 'zod';
import { shortNumber } from '../http/short-number.js';
import { JobAnswer } from '../jobs/job.js';
import { located } from '../jobs/located.js';
import { Answers } from '../openapi/answers.decorator.js';
import { Duty } from '../sign-in/duty.decorator.js';
import { SignedIn, type SignedInActor } from '../sign-in/signed-in.decorator.js';
import { RecomputationAnswer, RecomputationInList } from './recomputation-answer.js';
import { RecomputationsService } from './recomputations.service.js';

@Controller('api/recomputations')
export class RecomputationsController {
  constructor(private readonly recomputations: RecomputationsService) {}

  @Post()
  @Duty('audit', 'review')
  @Answers('Have every run read again and compared with what was kept of it: a job is begun', JobAnswer)
  @HttpCode(202)
  async recompute(@SignedIn() by: SignedInActor, @Res({ passthrough: true }) reply: FastifyReply): Promise<JobAnswer> {
    return located(reply, await this.recomputations.ask(by));
  }

  @Get()
  @Duty('signed in')
  @Answers(
    'What came of reading every run again, the last first',
    z.strictObject({ items: z.array(RecomputationInList) }),
  )
  async list(@SignedIn() by: SignedInActor): Promise<{ items: RecomputationInList[] }> {
    return { items: await this.recomputations.list(by.labId) };
  }

  @Get(':n')
  @Duty('signed in')
  @Answers('The same of one time: what differs, and since when', RecomputationAnswer)
  one(
    @Param('n', shortNumber('recomputation')) n: number,
    @SignedIn() by: SignedInActor,
  ): Promise<RecomputationAnswer> {
    return this.recomputations.one(by.labId, n);
  }
}
