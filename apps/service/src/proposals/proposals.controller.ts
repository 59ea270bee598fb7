import { Body, Controller, Get, HttpCode, Param, Post, Query } from '@nestjs/common';
import { parsedBy } from '../http/parsed-by.js';
import { queriedBy } from '../http/queried-by.js';
import { shortNumber } from '../http/short-number.js';
import { Answers } from '../openapi/answers.decorator.js';
import { type PageOf, pageOf } from '../records/kept.js';
import { Again, Duty } from '../sign-in/duty.decorator.js';
import { SignedIn, type SignedInActor } from '../sign-in/signed-in.decorator.js';
import { Approval, Declining, ProposalAnswer, ProposalInList, ProposalsAsked } from './proposal-answers.js';
import { ProposalsService } from './proposals.service.js';

/** What one person proposed and another approves: revisions of methods, layouts, limits and plans. */
@Controller('api/proposals')
export class ProposalsController {
  constructor(private readonly proposals: ProposalsService) {}

  @Get()
  @Duty('signed in')
  @Answers('Proposed revisions, those that wait for approval where that is asked for', pageOf(ProposalInList))
  list(
    @Query(queriedBy(ProposalsAsked)) asked: ProposalsAsked,
    @SignedIn() by: SignedInActor,
  ): Promise<PageOf<ProposalInList>> {
    return this.proposals.list(by.labId, asked);
  }

  @Get(':n')
  @Duty('signed in')
  @Answers('One proposed revision, and where it differs from the one before', ProposalAnswer)
  one(@Param('n', shortNumber('proposal')) n: number, @SignedIn() by: SignedInActor): Promise<ProposalAnswer> {
    return this.proposals.one(by.labId, n);
  }

  @Post(':n/approval')
  @HttpCode(200)
  @Duty('define')
  @Again()
  @Answers('Approve a proposed revision, exactly as it was shown', ProposalAnswer)
  approve(
    @Param('n', shortNumber('proposal')) n: number,
    @Body(parsedBy(Approval)) approval: Approval,
    @SignedIn() by: SignedInActor,
  ): Promise<ProposalAnswer> {
    return this.proposals.approve(by, n, approval);
  }

  @Post(':n/declining')
  @HttpCode(200)
  @Duty('define')
  @Again()
  @Answers('Decline a proposed revision, or take it back', ProposalAnswer)
  decline(
    @Param('n', shortNumber('proposal')) n: number,
    @Body(parsedBy(Declining)) declining: Declining,
    @SignedIn() by: SignedInActor,
  ): Promise<ProposalAnswer> {
    return this.proposals.decline(by, n, declining);
  }
}
