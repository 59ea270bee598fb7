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
import { NonconformitiesService } from './nonconformities.service.js';
import {
  ChangedNonconformity,
  NewNonconformity,
  NonconformitiesAsked,
  NonconformityAnswer,
  NonconformityVersionAnswer,
} from './nonconformity-answers.js';

@Controller('api/nonconformities')
@UseInterceptors(VersionTag)
export class NonconformitiesController {
  constructor(private readonly nonconformities: NonconformitiesService) {}

  @Get()
  @Duty('signed in')
  @Answers('Nonconformities, the open ones where nothing else is asked', pageOf(NonconformityAnswer))
  list(
    @Query(queriedBy(NonconformitiesAsked)) asked: NonconformitiesAsked,
    @SignedIn() by: SignedInActor,
  ): Promise<PageOf<NonconformityAnswer>> {
    return this.nonconformities.list(by.labId, asked);
  }

  @Get(':n')
  @Duty('signed in')
  @Answers('One nonconformity', NonconformityAnswer)
  one(
    @Param('n', shortNumber('nonconformity')) n: number,
    @SignedIn() by: SignedInActor,
  ): Promise<NonconformityAnswer> {
    return this.nonconformities.one(by.labId, n);
  }

  @Get(':n/history')
  @Duty('signed in')
  @Answers(
    'Everything that was said of a nonconformity',
    z.strictObject({ items: z.array(NonconformityVersionAnswer) }),
  )
  history(@Param('n', shortNumber('nonconformity')) n: number, @SignedIn() by: SignedInActor) {
    return this.nonconformities.history(by.labId, n);
  }

  @Post()
  @Duty('record', 'review', 'decide', 'draw', 'calibrate', 'define', 'issue', 'trace', 'compare', 'audit')
  @Answers('Open a nonconformity', NonconformityAnswer)
  open(
    @Body(parsedBy(NewNonconformity)) body: NewNonconformity,
    @SignedIn() by: SignedInActor,
  ): Promise<NonconformityAnswer> {
    return this.nonconformities.open(by, body);
  }

  @Put(':n')
  @Duty('record', 'review', 'decide', 'draw', 'calibrate', 'define')
  @Answers('Say more of an open nonconformity: its cause, what contains it, what is done about it', NonconformityAnswer)
  work(
    @Param('n', shortNumber('nonconformity')) n: number,
    @Body(parsedBy(ChangedNonconformity)) body: ChangedNonconformity,
    @IfMatch() seen: number,
    @SignedIn() by: SignedInActor,
  ): Promise<NonconformityAnswer> {
    return this.nonconformities.work(by, n, seen, body);
  }

  @Post(':n/closing')
  @HttpCode(200)
  @Duty('review', 'decide')
  @Again()
  @Answers('Close a nonconformity that others wrote', NonconformityAnswer)
  close(
    @Param('n', shortNumber('nonconformity')) n: number,
    @Body(parsedBy(Because)) { reason }: Because,
    @IfMatch() seen: number,
    @SignedIn() by: SignedInActor,
  ): Promise<NonconformityAnswer> {
    return this.nonconformities.close(by, n, seen, reason);
  }

  @Post(':n/reopening')
  @HttpCode(200)
  @Duty('record', 'review', 'decide', 'draw', 'calibrate', 'define')
  @Answers('Open a closed nonconformity again', NonconformityAnswer)
  reopen(
    @Param('n', shortNumber('nonconformity')) n: number,
    @Body(parsedBy(Because)) { reason }: Because,
    @IfMatch() seen: number,
    @SignedIn() by: SignedInActor,
  ): Promise<NonconformityAnswer> {
    return this.nonconformities.reopen(by, n, seen, reason);
  }
}
