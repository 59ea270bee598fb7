import { DisposalDone, NewDisposal } from '@breakbook/lab';
import { Body, Controller, Get, HttpCode, Param, Post, Query, UseInterceptors } from '@nestjs/common';
import { IfMatch } from '../http/if-match.decorator.js';
import { parsedBy } from '../http/parsed-by.js';
import { queriedBy } from '../http/queried-by.js';
import { shortNumber } from '../http/short-number.js';
import { VersionTag } from '../http/version-tag.interceptor.js';
import { Answers } from '../openapi/answers.decorator.js';
import { Because, type PageOf, pageOf } from '../records/kept.js';
import { Paging } from '../records/paging.js';
import { Again, Duty } from '../sign-in/duty.decorator.js';
import { SignedIn, type SignedInActor } from '../sign-in/signed-in.decorator.js';
import { DisposalAnswer, DisposalsService } from './disposals.service.js';

const number = () => shortNumber('disposal');

@Controller('api/disposals')
@UseInterceptors(VersionTag)
export class DisposalsController {
  constructor(private readonly disposals: DisposalsService) {}

  @Get()
  @Duty('signed in')
  @Answers('Disposals of remnants, whatever became of them', pageOf(DisposalAnswer))
  list(@Query(queriedBy(Paging)) asked: Paging, @SignedIn() by: SignedInActor): Promise<PageOf<DisposalAnswer>> {
    return this.disposals.list(by.labId, asked);
  }

  @Get(':n')
  @Duty('signed in')
  @Answers('One disposal', DisposalAnswer)
  one(@Param('n', number()) n: number, @SignedIn() by: SignedInActor): Promise<DisposalAnswer> {
    return this.disposals.one(by.labId, n);
  }

  @Post()
  @Duty('draw', 'record', 'decide')
  @Answers('Ask for the remnants of specimens to be disposed of', DisposalAnswer)
  ask(@Body(parsedBy(NewDisposal)) body: NewDisposal, @SignedIn() by: SignedInActor): Promise<DisposalAnswer> {
    return this.disposals.ask(by, body);
  }

  @Post(':n/authorisation')
  @HttpCode(200)
  @Duty('decide')
  @Again()
  @Answers('Authorise a disposal that somebody else asked for', DisposalAnswer)
  authorise(
    @Param('n', number()) n: number,
    @Body(parsedBy(Because)) { reason }: Because,
    @IfMatch() seen: number,
    @SignedIn() by: SignedInActor,
  ): Promise<DisposalAnswer> {
    return this.disposals.authorise(by, n, seen, reason);
  }

  @Post(':n/refusal')
  @HttpCode(200)
  @Duty('decide')
  @Again()
  @Answers('Refuse a disposal that somebody else asked for', DisposalAnswer)
  refuse(
    @Param('n', number()) n: number,
    @Body(parsedBy(Because)) { reason }: Because,
    @IfMatch() seen: number,
    @SignedIn() by: SignedInActor,
  ): Promise<DisposalAnswer> {
    return this.disposals.refuse(by, n, seen, reason);
  }

  @Post(':n/withdrawal')
  @HttpCode(200)
  @Duty('draw', 'record', 'decide')
  @Answers('Take back a disposal that was asked for', DisposalAnswer)
  withdraw(
    @Param('n', number()) n: number,
    @Body(parsedBy(Because)) { reason }: Because,
    @IfMatch() seen: number,
    @SignedIn() by: SignedInActor,
  ): Promise<DisposalAnswer> {
    return this.disposals.withdraw(by, n, seen, reason);
  }

  @Post(':n/carrying-out')
  @HttpCode(200)
  @Duty('draw', 'record', 'decide')
  @Answers('Record that an authorised disposal was carried out', DisposalAnswer)
  carryOut(
    @Param('n', number()) n: number,
    @Body(parsedBy(DisposalDone)) done: DisposalDone,
    @IfMatch() seen: number,
    @SignedIn() by: SignedInActor,
  ): Promise<DisposalAnswer> {
    return this.disposals.carryOut(by, n, seen, done);
  }
}
