import { Body, Controller, Get, HttpCode, Param, Post, Res } from '@nestjs/common';
import type { FastifyReply } from 'fastify';
import { z } from 'zod';
import { DocumentsService } from '../documents/documents.service.js';
import { NewDocument } from '../documents/new-document.js';
import { parsedBy } from '../http/parsed-by.js';
import { shortNumber } from '../http/short-number.js';
import { JobAnswer } from '../jobs/job.js';
import { located } from '../jobs/located.js';
import { Answers } from '../openapi/answers.decorator.js';
import { Again, Duty } from '../sign-in/duty.decorator.js';
import { SignedIn, type SignedInActor } from '../sign-in/signed-in.decorator.js';
import { EvaluationAnswer, EvaluationInList, EvaluationsService } from './evaluations.service.js';

@Controller('api')
export class EvaluationsController {
  constructor(
    private readonly evaluations: EvaluationsService,
    private readonly documents: DocumentsService,
  ) {}

  @Post('lots/:lot/evaluations')
  @Duty('review', 'decide', 'issue')
  @Answers('Have a lot evaluated: a job is begun', JobAnswer)
  @HttpCode(202)
  async evaluate(
    @Param('lot') lot: string,
    @SignedIn() by: SignedInActor,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<JobAnswer> {
    return located(reply, await this.evaluations.ask(by, lot));
  }

  @Get('lots/:lot/evaluations')
  @Duty('signed in')
  @Answers('Evaluations of a lot', z.strictObject({ items: z.array(EvaluationInList) }))
  async ofLot(@Param('lot') lot: string, @SignedIn() by: SignedInActor): Promise<{ items: EvaluationInList[] }> {
    return { items: await this.evaluations.ofLot(by.labId, lot) };
  }

  @Get('evaluations/:n')
  @Duty('signed in')
  @Answers('One evaluation whole', EvaluationAnswer)
  one(@Param('n', shortNumber('evaluation')) n: number, @SignedIn() by: SignedInActor): Promise<EvaluationAnswer> {
    return this.evaluations.one(by.labId, n);
  }

  @Post('evaluations/:n/documents')
  @Duty('issue', 'decide')
  @Again()
  @Answers('Have a document made of an evaluation: a job is begun', JobAnswer)
  @HttpCode(202)
  async document(
    @Param('n', shortNumber('evaluation')) n: number,
    @Body(parsedBy(NewDocument)) body: NewDocument,
    @SignedIn() by: SignedInActor,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<JobAnswer> {
    return located(reply, await this.documents.ask(by, n, body));
  }
}
