import { ConsentOrNotice, Key, Paragraph } from '@breakbook/lab';
import { Body, Controller, Get, HttpCode, Param, Post, Query, UseInterceptors } from '@nestjs/common';
import { z } from 'zod';
import { parsedBy } from '../http/parsed-by.js';
import { queriedBy } from '../http/queried-by.js';
import { VersionTag } from '../http/version-tag.interceptor.js';
import { Answers } from '../openapi/answers.decorator.js';
import { Because, type Change, changeTo, type PageOf, pageOf } from '../records/kept.js';
import { Again, Duty } from '../sign-in/duty.decorator.js';
import { SignedIn, type SignedInActor } from '../sign-in/signed-in.decorator.js';
import {
  ComparisonAnswer,
  ComparisonApproval,
  ComparisonDeclining,
  ComparisonInList,
  ComparisonRevisionAnswer,
  ComparisonsAsked,
  NewComparison,
} from './comparison-answers.js';
import { ComparisonsService } from './comparisons.service.js';

const { recordedBy: _recordedBy, ...consentFields } = ConsentOrNotice.shape;
const NewConsent = z.strictObject(consentFields);
type NewConsent = z.infer<typeof NewConsent>;
const NewSetAside = z.strictObject({ specimen: Key, because: Paragraph });
type NewSetAside = z.infer<typeof NewSetAside>;

/** What is compared with what: declared, approved, and what is said around it. */
@Controller('api/comparisons')
@UseInterceptors(VersionTag)
export class ComparisonsController {
  constructor(private readonly comparisons: ComparisonsService) {}

  @Get()
  @Duty('signed in')
  @Answers('Comparisons, of one product or with one specimen as an item where it is named', pageOf(ComparisonInList))
  list(
    @Query(queriedBy(ComparisonsAsked)) asked: ComparisonsAsked,
    @SignedIn() by: SignedInActor,
  ): Promise<PageOf<ComparisonInList>> {
    return this.comparisons.list(by.labId, asked);
  }

  @Get(':comparison')
  @Duty('signed in')
  @Answers('One comparison: what is declared last, what was declared before, and by whom', ComparisonAnswer)
  one(@Param('comparison') comparison: string, @SignedIn() by: SignedInActor): Promise<ComparisonAnswer> {
    return this.comparisons.one(by, comparison);
  }

  @Get(':comparison/revisions/:revision')
  @Duty('signed in')
  @Answers('What one revision of a comparison declares', ComparisonRevisionAnswer)
  revision(
    @Param('comparison') comparison: string,
    @Param('revision') revision: string,
    @SignedIn() by: SignedInActor,
  ): Promise<ComparisonRevisionAnswer> {
    return this.comparisons.revision(by.labId, comparison, revision);
  }

  @Post()
  @Duty('define')
  @Answers('Declare what is compared with what, before testing', ComparisonAnswer)
  declare(
    @Body(parsedBy(NewComparison)) body: NewComparison,
    @SignedIn() by: SignedInActor,
  ): Promise<ComparisonAnswer> {
    return this.comparisons.declare(by, body);
  }

  @Post(':comparison/revisions')
  @Duty('define')
  @Answers('Declare a comparison anew: the next revision, with its reason', ComparisonAnswer)
  declareAnew(
    @Param('comparison') comparison: string,
    @Body(parsedBy(changeTo(NewComparison))) change: Change<NewComparison>,
    @SignedIn() by: SignedInActor,
  ): Promise<ComparisonAnswer> {
    return this.comparisons.declareAnew(by, comparison, change);
  }

  @Post(':comparison/approval')
  @HttpCode(200)
  @Duty('define')
  @Again()
  @Answers('Approve what another person declared, exactly as it was shown', ComparisonAnswer)
  approve(
    @Param('comparison') comparison: string,
    @Body(parsedBy(ComparisonApproval)) body: ComparisonApproval,
    @SignedIn() by: SignedInActor,
  ): Promise<ComparisonAnswer> {
    return this.comparisons.approve(by, comparison, body);
  }

  @Post(':comparison/declining')
  @HttpCode(200)
  @Duty('define')
  @Again()
  @Answers('Decline what was declared, or take it back', ComparisonAnswer)
  decline(
    @Param('comparison') comparison: string,
    @Body(parsedBy(ComparisonDeclining)) body: ComparisonDeclining,
    @SignedIn() by: SignedInActor,
  ): Promise<ComparisonAnswer> {
    return this.comparisons.decline(by, comparison, body);
  }

  @Post(':comparison/withdrawal')
  @HttpCode(200)
  @Duty('define')
  @Again()
  @Answers('Withdraw a comparison: it goes no further', ComparisonAnswer)
  withdraw(
    @Param('comparison') comparison: string,
    @Body(parsedBy(Because)) { reason }: Because,
    @SignedIn() by: SignedInActor,
  ): Promise<ComparisonAnswer> {
    return this.comparisons.withdraw(by, comparison, reason);
  }

  @Post(':comparison/consents')
  @Duty('define', 'trace', 'compare')
  @Answers('Note who agreed to an examination that ends an item, or was told of it', ComparisonAnswer)
  consent(
    @Param('comparison') comparison: string,
    @Body(parsedBy(NewConsent)) body: NewConsent,
    @SignedIn() by: SignedInActor,
  ): Promise<ComparisonAnswer> {
    return this.comparisons.consent(by, comparison, body);
  }

  @Post(':comparison/set-aside')
  @Duty('review', 'compare')
  @Answers('Say why an item of a comparison cannot be compared', ComparisonAnswer)
  setAside(
    @Param('comparison') comparison: string,
    @Body(parsedBy(NewSetAside)) body: NewSetAside,
    @SignedIn() by: SignedInActor,
  ): Promise<ComparisonAnswer> {
    return this.comparisons.setAside(by, comparison, body);
  }
}
