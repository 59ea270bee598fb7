import { Concession } from '@breakbook/lab';
import { Body, Controller, Get, HttpCode, Param, Post, Query, UseInterceptors } from '@nestjs/common';
import { z } from 'zod';
import { IfMatch } from '../http/if-match.decorator.js';
import { parsedBy } from '../http/parsed-by.js';
import { queriedBy } from '../http/queried-by.js';
import { shortNumber } from '../http/short-number.js';
import { VersionTag } from '../http/version-tag.interceptor.js';
import { Answers } from '../openapi/answers.decorator.js';
import { type PageOf, pageOf } from '../records/kept.js';
import { Again, Duty } from '../sign-in/duty.decorator.js';
import { SignedIn, type SignedInActor } from '../sign-in/signed-in.decorator.js';
import { ConcessionAnswer, ConcessionsAsked, ConcessionVersionAnswer, OnConcession } from './concession-answers.js';
import { ConcessionsService } from './concessions.service.js';

const number = () => shortNumber('concession');

@Controller('api/concessions')
@UseInterceptors(VersionTag)
export class ConcessionsController {
  constructor(private readonly concessions: ConcessionsService) {}

  @Get()
  @Duty('signed in')
  @Answers('Concessions and deviation permits, of one lot where it is named', pageOf(ConcessionAnswer))
  list(
    @Query(queriedBy(ConcessionsAsked)) asked: ConcessionsAsked,
    @SignedIn() by: SignedInActor,
  ): Promise<PageOf<ConcessionAnswer>> {
    return this.concessions.list(by.labId, asked);
  }

  @Get(':n')
  @Duty('signed in')
  @Answers('One concession or deviation permit', ConcessionAnswer)
  one(@Param('n', number()) n: number, @SignedIn() by: SignedInActor): Promise<ConcessionAnswer> {
    return this.concessions.one(by.labId, n);
  }

  @Get(':n/history')
  @Duty('signed in')
  @Answers('How a concession came to stand as it does', z.strictObject({ items: z.array(ConcessionVersionAnswer) }))
  history(@Param('n', number()) n: number, @SignedIn() by: SignedInActor) {
    return this.concessions.history(by.labId, n);
  }

  @Post()
  @Duty('define', 'record', 'review', 'decide', 'draw')
  @Answers('Ask for a concession or a deviation permit', ConcessionAnswer)
  request(@Body(parsedBy(Concession)) body: Concession, @SignedIn() by: SignedInActor): Promise<ConcessionAnswer> {
    return this.concessions.request(by, body);
  }

  @Post(':n/grant')
  @HttpCode(200)
  @Duty('decide')
  @Again()
  @Answers('Grant what somebody else asked for', ConcessionAnswer)
  grant(
    @Param('n', number()) n: number,
    @Body(parsedBy(OnConcession)) { reason }: OnConcession,
    @IfMatch() seen: number,
    @SignedIn() by: SignedInActor,
  ): Promise<ConcessionAnswer> {
    return this.concessions.grant(by, n, seen, reason);
  }

  @Post(':n/refusal')
  @HttpCode(200)
  @Duty('decide')
  @Again()
  @Answers('Refuse what somebody else asked for', ConcessionAnswer)
  refuse(
    @Param('n', number()) n: number,
    @Body(parsedBy(OnConcession)) { reason }: OnConcession,
    @IfMatch() seen: number,
    @SignedIn() by: SignedInActor,
  ): Promise<ConcessionAnswer> {
    return this.concessions.refuse(by, n, seen, reason);
  }

  @Post(':n/withdrawal')
  @HttpCode(200)
  @Duty('define', 'record', 'review', 'decide', 'draw')
  @Answers('Take back what was asked for or granted', ConcessionAnswer)
  withdraw(
    @Param('n', number()) n: number,
    @Body(parsedBy(OnConcession)) { reason }: OnConcession,
    @IfMatch() seen: number,
    @SignedIn() by: SignedInActor,
  ): Promise<ConcessionAnswer> {
    return this.concessions.withdraw(by, n, seen, reason);
  }
}
