import { Limit } from '@breakbook/lab';
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
  definitionOf,
  type Kept,
  type KeptVersion,
  type PageOf,
  pageOf,
  standingRevisionOf,
} from '../records/kept.js';
import { DefinitionsAsked, Paging } from '../records/paging.js';
import { keptHistory, keptOne, keptPage, keptRevision } from '../records/read-kind.js';
import { Duty } from '../sign-in/duty.decorator.js';
import { SignedIn, type SignedInActor } from '../sign-in/signed-in.decorator.js';
import { LIMIT } from './limit-kind.js';

const KeptLimit = definitionOf(Limit);

/** What results are held against. Whoever proposes a limit does not approve it. */
@Controller('api/limits')
@UseInterceptors(VersionTag)
export class LimitsController {
  constructor(private readonly records: Records) {}

  @Get()
  @Duty('signed in')
  @Answers('Limits, each in its last revision, or in the one in force where that is asked for', pageOf(KeptLimit))
  list(
    @Query(queriedBy(DefinitionsAsked)) asked: DefinitionsAsked,
    @SignedIn() by: SignedInActor,
  ): Promise<PageOf<Kept<Limit>>> {
    return keptPage(this.records.read(by.labId), LIMIT, asked);
  }

  @Get(':limit')
  @Duty('signed in')
  @Answers('One limit in its last revision', KeptLimit)
  one(@Param('limit') limit: string, @SignedIn() by: SignedInActor): Promise<Kept<Limit>> {
    return keptOne(this.records.read(by.labId), LIMIT, limit);
  }

  @Get(':limit/revisions')
  @Duty('signed in')
  @Answers('Every revision of a limit', pageOf(standingRevisionOf(Limit)))
  revisions(
    @Param('limit') limit: string,
    @Query(queriedBy(Paging)) paging: Paging,
    @SignedIn() by: SignedInActor,
  ): Promise<PageOf<KeptVersion<Limit>>> {
    return keptHistory(this.records.read(by.labId), LIMIT, limit, paging);
  }

  @Get(':limit/revisions/:revision')
  @Duty('signed in')
  @Answers('One revision of a limit', standingRevisionOf(Limit))
  revision(
    @Param('limit') limit: string,
    @Param('revision') revision: string,
    @SignedIn() by: SignedInActor,
  ): Promise<KeptVersion<Limit>> {
    return keptRevision(this.records.read(by.labId), LIMIT, limit, revision);
  }

  @Post()
  @Duty('define')
  @Answers('Propose a limit by a first revision', KeptLimit)
  define(@Body(parsedBy(Limit)) limit: Limit, @SignedIn() by: SignedInActor): Promise<Kept<Limit>> {
    return defined(this.records, by, LIMIT, limit);
  }

  @Post(':limit/revisions')
  @Duty('define')
  @Answers('Propose the next revision of a limit', KeptLimit)
  revise(
    @Param('limit') limit: string,
    @Body(parsedBy(changeTo(Limit))) change: Change<Limit>,
    @SignedIn() by: SignedInActor,
  ): Promise<Kept<Limit>> {
    return revisionAdded(this.records, by, LIMIT, limit, change);
  }
}
