import { Method } from '@breakbook/lab';
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
import { METHOD } from './method-kind.js';

const KeptMethod = definitionOf(Method);

/** How tests are run. Results were judged by a revision, so none ever changes; a new text is a new revision. */
@Controller('api/methods')
@UseInterceptors(VersionTag)
export class MethodsController {
  constructor(private readonly records: Records) {}

  @Get()
  @Duty('signed in')
  @Answers('Methods, each in its last revision, or in the one in force where that is asked for', pageOf(KeptMethod))
  list(
    @Query(queriedBy(DefinitionsAsked)) asked: DefinitionsAsked,
    @SignedIn() by: SignedInActor,
  ): Promise<PageOf<Kept<Method>>> {
    return keptPage(this.records.read(by.labId), METHOD, asked);
  }

  @Get(':method')
  @Duty('signed in')
  @Answers('One method in its last revision', KeptMethod)
  one(@Param('method') method: string, @SignedIn() by: SignedInActor): Promise<Kept<Method>> {
    return keptOne(this.records.read(by.labId), METHOD, method);
  }

  @Get(':method/revisions')
  @Duty('signed in')
  @Answers('Every revision of a method', pageOf(standingRevisionOf(Method)))
  revisions(
    @Param('method') method: string,
    @Query(queriedBy(Paging)) paging: Paging,
    @SignedIn() by: SignedInActor,
  ): Promise<PageOf<KeptVersion<Method>>> {
    return keptHistory(this.records.read(by.labId), METHOD, method, paging);
  }

  @Get(':method/revisions/:revision')
  @Duty('signed in')
  @Answers('One revision of a method', standingRevisionOf(Method))
  revision(
    @Param('method') method: string,
    @Param('revision') revision: string,
    @SignedIn() by: SignedInActor,
  ): Promise<KeptVersion<Method>> {
    return keptRevision(this.records.read(by.labId), METHOD, method, revision);
  }

  @Post()
  @Duty('define')
  @Answers('Propose a method by a first revision', KeptMethod)
  define(@Body(parsedBy(Method)) method: Method, @SignedIn() by: SignedInActor): Promise<Kept<Method>> {
    return defined(this.records, by, METHOD, method);
  }

  @Post(':method/revisions')
  @Duty('define')
  @Answers('Propose the next revision of a method', KeptMethod)
  revise(
    @Param('method') method: string,
    @Body(parsedBy(changeTo(Method))) change: Change<Method>,
    @SignedIn() by: SignedInActor,
  ): Promise<Kept<Method>> {
    return revisionAdded(this.records, by, METHOD, method, change);
  }
}
