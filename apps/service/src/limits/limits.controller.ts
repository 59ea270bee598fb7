import { Limit, Refusal } from '@breakbook/lab';
import { Records } from '@breakbook/records';
import { Body, Controller, Get, Param, Post, Query, UseInterceptors } from '@nestjs/common';
import { parsedBy } from '../http/parsed-by.js';
import { queriedBy } from '../http/queried-by.js';
import { VersionTag } from '../http/version-tag.interceptor.js';
import { Answers } from '../openapi/answers.decorator.js';
import { defined, revisionAdded } from '../records/change-kind.js';
import {
  type Change,
  changeTo,
  type Kept,
  type KeptVersion,
  keptOf,
  type PageOf,
  pageOf,
  versionOf,
} from '../records/kept.js';
import { Paging } from '../records/paging.js';
import { keptHistory, keptOne, keptPage, keptRevision } from '../records/read-kind.js';
import { Duty } from '../sign-in/duty.decorator.js';
import { SignedIn, type SignedInActor } from '../sign-in/signed-in.decorator.js';
import { LIMIT } from './limit-kind.js';

const KeptLimit = keptOf(Limit);

/** What results are held against. Whoever proposes a limit does not approve it. */
@Controller('api/limits')
@UseInterceptors(VersionTag)
export class LimitsController {
  constructor(private readonly records: Records) {}

  @Get()
  @Duty('signed in')
  @Answers('Limits, each in its last revision', pageOf(KeptLimit))
  list(@Query(queriedBy(Paging)) paging: Paging, @SignedIn() by: SignedInActor): Promise<PageOf<Kept<Limit>>> {
    return keptPage(this.records.read(by.labId), LIMIT, paging);
  }

  @Get(':limit')
  @Duty('signed in')
  @Answers('One limit in its last revision', KeptLimit)
  one(@Param('limit') limit: string, @SignedIn() by: SignedInActor): Promise<Kept<Limit>> {
    return keptOne(this.records.read(by.labId), LIMIT, limit);
  }

  @Get(':limit/revisions')
  @Duty('signed in')
  @Answers('Every revision of a limit', pageOf(versionOf(Limit)))
  revisions(
    @Param('limit') limit: string,
    @Query(queriedBy(Paging)) paging: Paging,
    @SignedIn() by: SignedInActor,
  ): Promise<PageOf<KeptVersion<Limit>>> {
    return keptHistory(this.records.read(by.labId), LIMIT, limit, paging);
  }

  @Get(':limit/revisions/:revision')
  @Duty('signed in')
  @Answers('One revision of a limit', versionOf(Limit))
  revision(
    @Param('limit') limit: string,
    @Param('revision') revision: string,
    @SignedIn() by: SignedInActor,
  ): Promise<KeptVersion<Limit>> {
    return keptRevision(this.records.read(by.labId), LIMIT, limit, revision);
  }

  @Post()
  @Duty('define')
  @Answers('Define a limit by a first revision', KeptLimit)
  async define(@Body(parsedBy(Limit)) limit: Limit, @SignedIn() by: SignedInActor): Promise<Kept<Limit>> {
    refuseOwnApproval(limit, by, '');
    return defined(this.records, by, LIMIT, limit);
  }

  @Post(':limit/revisions')
  @Duty('define')
  @Answers('Add the next revision of a limit', KeptLimit)
  async revise(
    @Param('limit') limit: string,
    @Body(parsedBy(changeTo(Limit))) change: Change<Limit>,
    @SignedIn() by: SignedInActor,
  ): Promise<Kept<Limit>> {
    refuseOwnApproval(change.content, by, '/content');
    return revisionAdded(this.records, by, LIMIT, limit, change);
  }
}

function refuseOwnApproval(limit: Limit, by: SignedInActor, at: string): void {
  if (limit.approvedBy !== by.person) return;
  throw new Refusal({
    code: 'duty.conflict',
    pointer: `${at}/approvedBy`,
    found: by.person,
    detail: `${at}/approvedBy: you propose this limit, so somebody else approves it.`,
    action: 'Have a colleague look at it, and name them here once they have approved it.',
  });
}
