import { Body, Controller, Get, HttpCode, Param, Post, Res } from '@nestjs/common';
import type { FastifyReply } from 'fastify';
import { parsedBy } from '../http/parsed-by.js';
import { shortNumber } from '../http/short-number.js';
import { JobAnswer } from '../jobs/job.js';
import { located } from '../jobs/located.js';
import { Answers } from '../openapi/answers.decorator.js';
import { Again, Duty } from '../sign-in/duty.decorator.js';
import { SignedIn, type SignedInActor } from '../sign-in/signed-in.decorator.js';
import { ComparisonAnswer } from './comparison-answers.js';
import { ComparisonReportsService } from './comparison-reports.service.js';
import { NewComparisonDocument } from './new-comparison-document.js';
import { ComparisonResultAnswer, NewConclusion } from './result-answers.js';
import { ComparisonResultsService } from './results.service.js';

/** What a comparison came to, and what was concluded. */
@Controller('api/comparisons/:comparison')
export class ComparisonResultsController {
  constructor(
    private readonly results: ComparisonResultsService,
    private readonly reports: ComparisonReportsService,
  ) {}

  @Post('results')
  @HttpCode(202)
  @Duty('review', 'decide', 'compare')
  @Answers('Have a comparison worked out from the records as they stand: a job is begun', JobAnswer)
  async ask(
    @Param('comparison') comparison: string,
    @SignedIn() by: SignedInActor,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<JobAnswer> {
    return located(reply, await this.results.ask(by, comparison));
  }

  @Get('result')
  @Duty('signed in')
  @Answers('What a comparison came to, the last time it was worked out', ComparisonResultAnswer)
  last(@Param('comparison') comparison: string, @SignedIn() by: SignedInActor): Promise<ComparisonResultAnswer> {
    return this.results.one(by, comparison);
  }

  @Get('results/:n')
  @Duty('signed in')
  @Answers('What a comparison came to, by the number of the result', ComparisonResultAnswer)
  one(
    @Param('comparison') comparison: string,
    @Param('n', shortNumber('result')) n: number,
    @SignedIn() by: SignedInActor,
  ): Promise<ComparisonResultAnswer> {
    return this.results.one(by, comparison, n);
  }

  @Post('conclusions')
  @Duty('decide')
  @Again()
  @Answers('Lock conclusions over the last result, exactly as it was shown', ComparisonAnswer)
  conclude(
    @Param('comparison') comparison: string,
    @Body(parsedBy(NewConclusion)) body: NewConclusion,
    @SignedIn() by: SignedInActor,
  ): Promise<ComparisonAnswer> {
    return this.results.conclude(by, comparison, body);
  }

  @Post('documents')
  @HttpCode(202)
  @Duty('issue', 'decide')
  @Again()
  @Answers('Have a report made of the conclusions that are locked: a job is begun', JobAnswer)
  async document(
    @Param('comparison') comparison: string,
    @Body(parsedBy(NewComparisonDocument)) body: NewComparisonDocument,
    @SignedIn() by: SignedInActor,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<JobAnswer> {
    return located(reply, await this.reports.ask(by, comparison, body));
  }
}
