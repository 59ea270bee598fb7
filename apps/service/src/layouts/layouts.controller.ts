import { Key, Layout } from '@breakbook/lab';
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
import { LAYOUT } from './layout-kind.js';

const KeptLayout = definitionOf(Layout);

const LayoutsAsked = z.strictObject({ ...DEFINITIONS_ASKED, rig: Key.optional() });
type LayoutsAsked = z.infer<typeof LayoutsAsked>;

/** How the files of each rig are read. Files were read by a revision, so none ever changes. */
@Controller('api/layouts')
@UseInterceptors(VersionTag)
export class LayoutsController {
  constructor(private readonly records: Records) {}

  @Get()
  @Duty('signed in')
  @Answers('Layouts, each in its last revision, or in the one in force where that is asked for', pageOf(KeptLayout))
  async list(
    @Query(queriedBy(LayoutsAsked)) { rig, ...paging }: LayoutsAsked,
    @SignedIn() by: SignedInActor,
  ): Promise<PageOf<Kept<Layout>>> {
    const reader = this.records.read(by.labId);
    return keptPage(reader, LAYOUT, paging, await within(reader, tables.Rig, 'rig', rig));
  }

  @Get(':layout')
  @Duty('signed in')
  @Answers('One layout in its last revision', KeptLayout)
  one(@Param('layout') layout: string, @SignedIn() by: SignedInActor): Promise<Kept<Layout>> {
    return keptOne(this.records.read(by.labId), LAYOUT, layout);
  }

  @Get(':layout/revisions')
  @Duty('signed in')
  @Answers('Every revision of a layout', pageOf(standingRevisionOf(Layout)))
  revisions(
    @Param('layout') layout: string,
    @Query(queriedBy(Paging)) paging: Paging,
    @SignedIn() by: SignedInActor,
  ): Promise<PageOf<KeptVersion<Layout>>> {
    return keptHistory(this.records.read(by.labId), LAYOUT, layout, paging);
  }

  @Get(':layout/revisions/:revision')
  @Duty('signed in')
  @Answers('One revision of a layout', standingRevisionOf(Layout))
  revision(
    @Param('layout') layout: string,
    @Param('revision') revision: string,
    @SignedIn() by: SignedInActor,
  ): Promise<KeptVersion<Layout>> {
    return keptRevision(this.records.read(by.labId), LAYOUT, layout, revision);
  }

  @Post()
  @Duty('define')
  @Answers('Propose a layout by a first revision', KeptLayout)
  define(@Body(parsedBy(Layout)) layout: Layout, @SignedIn() by: SignedInActor): Promise<Kept<Layout>> {
    return defined(this.records, by, LAYOUT, layout);
  }

  @Post(':layout/revisions')
  @Duty('define')
  @Answers('Propose the next revision of a layout', KeptLayout)
  revise(
    @Param('layout') layout: string,
    @Body(parsedBy(changeTo(Layout))) change: Change<Layout>,
    @SignedIn() by: SignedInActor,
  ): Promise<Kept<Layout>> {
    return revisionAdded(this.records, by, LAYOUT, layout, change);
  }
}
