import { Key, Plan } from '@breakbook/lab';
import { Records, tables } from '@breakbook/records';
import { Body, Controller, Get, Param, Post, Query, UseInterceptors } from '@nestjs/common';
import { z } from 'zod';
import { parsedBy } from '../http/parsed-by.js';
import { queriedBy } from '../http/queried-by.js';
import { VersionTag } from '../http/version-tag.interceptor.js';
import { Answers } from '../openapi/answers.decorator.js';
import { defined, revisionAdded } from '../records/change-kind.js';
import {
  type Change,
  changeTo,
  definitionOf,
  type Kept,
  type KeptVersion,
  type PageOf,
  pageOf,
  standingRevisionOf,
} from '../records/kept.js';
import { DEFINITIONS_ASKED, Paging } from '../records/paging.js';
import { keptHistory, keptOne, keptPage, keptRevision } from '../records/read-kind.js';
import { within } from '../records/within.js';
import { Duty } from '../sign-in/duty.decorator.js';
import { SignedIn, type SignedInActor } from '../sign-in/signed-in.decorator.js';
import { PLAN } from './plan-kind.js';

const KeptPlan = definitionOf(Plan);

const PlansAsked = z.strictObject({ ...DEFINITIONS_ASKED, product: Key.optional() });
type PlansAsked = z.infer<typeof PlansAsked>;

/** What will be tested, and what is claimed by it. A revision never changes; a run under it freezes even its number. */
@Controller('api/plans')
@UseInterceptors(VersionTag)
export class PlansController {
  constructor(private readonly records: Records) {}

  @Get()
  @Duty('signed in')
  @Answers('Plans, each in its last revision, or in the one in force where that is asked for', pageOf(KeptPlan))
  async list(
    @Query(queriedBy(PlansAsked)) { product, ...paging }: PlansAsked,
    @SignedIn() by: SignedInActor,
  ): Promise<PageOf<Kept<Plan>>> {
    const reader = this.records.read(by.labId);
    return keptPage(reader, PLAN, paging, await within(reader, tables.Product, 'product', product));
  }

  @Get(':plan')
  @Duty('signed in')
  @Answers('One plan in its last revision', KeptPlan)
  one(@Param('plan') plan: string, @SignedIn() by: SignedInActor): Promise<Kept<Plan>> {
    return keptOne(this.records.read(by.labId), PLAN, plan);
  }

  @Get(':plan/revisions')
  @Duty('signed in')
  @Answers('Every revision of a plan', pageOf(standingRevisionOf(Plan)))
  revisions(
    @Param('plan') plan: string,
    @Query(queriedBy(Paging)) paging: Paging,
    @SignedIn() by: SignedInActor,
  ): Promise<PageOf<KeptVersion<Plan>>> {
    return keptHistory(this.records.read(by.labId), PLAN, plan, paging);
  }

  @Get(':plan/revisions/:revision')
  @Duty('signed in')
  @Answers('One revision of a plan', standingRevisionOf(Plan))
  revision(
    @Param('plan') plan: string,
    @Param('revision') revision: string,
    @SignedIn() by: SignedInActor,
  ): Promise<KeptVersion<Plan>> {
    return keptRevision(this.records.read(by.labId), PLAN, plan, revision);
  }

  @Post()
  @Duty('define')
  @Answers('Propose a plan by a first revision', KeptPlan)
  define(@Body(parsedBy(Plan)) plan: Plan, @SignedIn() by: SignedInActor): Promise<Kept<Plan>> {
    return defined(this.records, by, PLAN, plan);
  }

  @Post(':plan/revisions')
  @Duty('define')
  @Answers('Propose the next revision of a plan', KeptPlan)
  revise(
    @Param('plan') plan: string,
    @Body(parsedBy(changeTo(Plan))) change: Change<Plan>,
    @SignedIn() by: SignedInActor,
  ): Promise<Kept<Plan>> {
    return revisionAdded(this.records, by, PLAN, plan, change);
  }
}
