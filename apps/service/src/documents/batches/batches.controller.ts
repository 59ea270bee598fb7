import { Readable } from 'node:stream';
import { Body, Controller, Get, Header, HttpCode, Param, Post, Res, StreamableFile } from '@nestjs/common';
import type { FastifyReply } from 'fastify';
import { z } from 'zod';
import { AnswersIn } from '../../http/answers-in.decorator.js';
import { parsedBy } from '../../http/parsed-by.js';
import { shortNumber } from '../../http/short-number.js';
import { JobAnswer } from '../../jobs/job.js';
import { located } from '../../jobs/located.js';
import { Answers } from '../../openapi/answers.decorator.js';
import { Again, Duty } from '../../sign-in/duty.decorator.js';
import { SignedIn, type SignedInActor } from '../../sign-in/signed-in.decorator.js';
import { BatchAnswer, BatchInList, NewBatch } from './batch-answer.js';
import { BatchesService } from './batches.service.js';

/** All sheets of one kind of a lot. */
@Controller('api')
export class BatchesController {
  constructor(private readonly batches: BatchesService) {}

  @Post('lots/:lot/document-batches')
  @Duty('review', 'decide', 'issue')
  @Again()
  @HttpCode(202)
  @Answers('Have all run sheets, specimen records or labels of a lot made: a job is begun', JobAnswer)
  async ask(
    @Param('lot') lot: string,
    @Body(parsedBy(NewBatch)) body: NewBatch,
    @SignedIn() by: SignedInActor,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<JobAnswer> {
    return located(reply, await this.batches.ask(by, lot, body));
  }

  @Get('lots/:lot/document-batches')
  @Duty('signed in')
  @Answers('Batches of documents of a lot, the last first', z.strictObject({ items: z.array(BatchInList) }))
  async ofLot(@Param('lot') lot: string, @SignedIn() by: SignedInActor): Promise<{ items: BatchInList[] }> {
    return { items: await this.batches.ofLot(by.labId, lot) };
  }

  @Get('document-batches/:n')
  @Duty('signed in')
  @Answers('A batch of documents: how much of it is made', BatchAnswer)
  one(@Param('n', shortNumber('batch of documents')) n: number, @SignedIn() by: SignedInActor): Promise<BatchAnswer> {
    return this.batches.one(by.labId, n);
  }

  @Post('document-batches/:n/resumption')
  @Duty('review', 'decide', 'issue')
  @Again()
  @HttpCode(202)
  @Answers('Go on with a batch that was given up: a job is begun', JobAnswer)
  async goOn(
    @Param('n', shortNumber('batch of documents')) n: number,
    @SignedIn() by: SignedInActor,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<JobAnswer> {
    return located(reply, await this.batches.goOn(by, n));
  }

  @Get('document-batches/:n/zip')
  @Duty('audit', 'review', 'decide', 'issue')
  @AnswersIn('application/zip')
  @Header('cache-control', 'no-store')
  @Answers('The documents of a batch made so far')
  async zip(
    @Param('n', shortNumber('batch of documents')) n: number,
    @SignedIn() by: SignedInActor,
  ): Promise<StreamableFile> {
    const { name, bytes } = await this.batches.zip(by, n);
    return new StreamableFile(Readable.from(bytes), {
      type: 'application/zip',
      disposition: `attachment; filename="${name}"`,
    });
  }
}
