import { Body, Controller, HttpCode, Param, Post, Res } from '@nestjs/common';
import type { FastifyReply } from 'fastify';
import { parsedBy } from '../../http/parsed-by.js';
import { JobAnswer } from '../../jobs/job.js';
import { located } from '../../jobs/located.js';
import { Answers } from '../../openapi/answers.decorator.js';
import { Again, Duty } from '../../sign-in/duty.decorator.js';
import { SignedIn, type SignedInActor } from '../../sign-in/signed-in.decorator.js';
import { NewLabelSheet, NewRunSheet, NewSpecimenRecord } from './sheet-asked.js';
import { SheetsService } from './sheets.service.js';

/** Sheets of one thing, made of what is stored. */
@Controller('api')
export class SheetsController {
  constructor(private readonly sheets: SheetsService) {}

  @Post('runs/:run/documents')
  @Duty('review', 'decide', 'issue')
  @Again()
  @HttpCode(202)
  @Answers('Have the sheet of a run made: a job is begun', JobAnswer)
  async runSheet(
    @Param('run') run: string,
    @Body(parsedBy(NewRunSheet)) body: NewRunSheet,
    @SignedIn() by: SignedInActor,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<JobAnswer> {
    return located(reply, await this.sheets.askRunSheet(by, run, body));
  }

  @Post('specimens/:specimen/documents')
  @Duty('review', 'decide', 'issue')
  @Again()
  @HttpCode(202)
  @Answers('Have the record of a specimen made: a job is begun', JobAnswer)
  async specimenRecord(
    @Param('specimen') specimen: string,
    @Body(parsedBy(NewSpecimenRecord)) body: NewSpecimenRecord,
    @SignedIn() by: SignedInActor,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<JobAnswer> {
    return located(reply, await this.sheets.askSpecimenRecord(by, specimen, body));
  }

  @Post('lots/:lot/documents')
  @Duty('review', 'decide', 'issue')
  @Again()
  @HttpCode(202)
  @Answers('Have labels of the specimens of a lot made: a job is begun', JobAnswer)
  async labelSheet(
    @Param('lot') lot: string,
    @Body(parsedBy(NewLabelSheet)) body: NewLabelSheet,
    @SignedIn() by: SignedInActor,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<JobAnswer> {
    return located(reply, await this.sheets.askLabelSheet(by, lot, body));
  }
}
