import { Body, Controller, Get, HttpCode, Param, Post, Put, Query, UseInterceptors } from '@nestjs/common';
import { z } from 'zod';
import { IfMatch } from '../http/if-match.decorator.js';
import { parsedBy } from '../http/parsed-by.js';
import { queriedBy } from '../http/queried-by.js';
import { shortNumber } from '../http/short-number.js';
import { VersionTag } from '../http/version-tag.interceptor.js';
import { Answers } from '../openapi/answers.decorator.js';
import { Because, type PageOf, pageOf } from '../records/kept.js';
import { Again, Duty } from '../sign-in/duty.decorator.js';
import { SignedIn, type SignedInActor } from '../sign-in/signed-in.decorator.js';
import { ChangedOpinion, NewOpinion, OpinionAnswer, OpinionsAsked } from './opinion-answers.js';
import { OpinionsService } from './opinions.service.js';

@Controller('api/opinions')
@UseInterceptors(VersionTag)
export class OpinionsController {
  constructor(private readonly opinions: OpinionsService) {}

  @Get()
  @Duty('signed in')
  @Answers('Opinions and interpretations, of one lot or run where it is named', pageOf(OpinionAnswer))
  list(
    @Query(queriedBy(OpinionsAsked)) asked: OpinionsAsked,
    @SignedIn() by: SignedInActor,
  ): Promise<PageOf<OpinionAnswer>> {
    return this.opinions.list(by.labId, asked);
  }

  @Get(':n')
  @Duty('signed in')
  @Answers('One opinion', OpinionAnswer)
  one(@Param('n', shortNumber('opinion')) n: number, @SignedIn() by: SignedInActor): Promise<OpinionAnswer> {
    return this.opinions.one(by.labId, n);
  }

  @Get(':n/history')
  @Duty('signed in')
  @Answers('An opinion as it was said, each time', z.strictObject({ items: z.array(OpinionAnswer) }))
  history(@Param('n', shortNumber('opinion')) n: number, @SignedIn() by: SignedInActor) {
    return this.opinions.history(by.labId, n);
  }

  @Post()
  @Duty('review', 'decide')
  @Again()
  @Answers('Give an opinion on the results of a lot or a run', OpinionAnswer)
  give(@Body(parsedBy(NewOpinion)) body: NewOpinion, @SignedIn() by: SignedInActor): Promise<OpinionAnswer> {
    return this.opinions.give(by, body);
  }

  @Put(':n')
  @Duty('review', 'decide')
  @Again()
  @Answers('Say an opinion anew', OpinionAnswer)
  sayAnew(
    @Param('n', shortNumber('opinion')) n: number,
    @Body(parsedBy(ChangedOpinion)) { content, reason }: ChangedOpinion,
    @IfMatch() seen: number,
    @SignedIn() by: SignedInActor,
  ): Promise<OpinionAnswer> {
    return this.opinions.sayAnew(by, n, { seen, content, reason });
  }

  @Post(':n/withdrawal')
  @HttpCode(200)
  @Duty('review', 'decide')
  @Again()
  @Answers('Take an opinion back', OpinionAnswer)
  withdraw(
    @Param('n', shortNumber('opinion')) n: number,
    @Body(parsedBy(Because)) { reason }: Because,
    @IfMatch() seen: number,
    @SignedIn() by: SignedInActor,
  ): Promise<OpinionAnswer> {
    return this.opinions.withdraw(by, n, seen, reason);
  }
}
