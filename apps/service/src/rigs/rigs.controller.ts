import { Records, tables } from '@breakbook/records';
import { Body, Controller, Get, Param, Post, Put, Query, UseInterceptors } from '@nestjs/common';
import { IfMatch } from '../http/if-match.decorator.js';
import { parsedBy } from '../http/parsed-by.js';
import { queriedBy } from '../http/queried-by.js';
import { VersionTag } from '../http/version-tag.interceptor.js';
import { Answers } from '../openapi/answers.decorator.js';
import { defined, revised } from '../records/change-kind.js';
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
import { keptHistory, keptOne, keptPage } from '../records/read-kind.js';
import { Duty } from '../sign-in/duty.decorator.js';
import { SignedIn, type SignedInActor } from '../sign-in/signed-in.decorator.js';
import { RIG } from './rig-kind.js';

const { RigBody } = tables;
type RigBody = tables.RigBody;
const KeptRig = keptOf(RigBody);

/** Rigs: what breaks specimens. */
@Controller('api/rigs')
@UseInterceptors(VersionTag)
export class RigsController {
  constructor(private readonly records: Records) {}

  @Get()
  @Duty('signed in')
  @Answers('Rigs', pageOf(KeptRig))
  list(@Query(queriedBy(Paging)) paging: Paging, @SignedIn() by: SignedInActor): Promise<PageOf<Kept<RigBody>>> {
    return keptPage(this.records.read(by.labId), RIG, paging);
  }

  @Get(':rig')
  @Duty('signed in')
  @Answers('One rig', KeptRig)
  one(@Param('rig') rig: string, @SignedIn() by: SignedInActor): Promise<Kept<RigBody>> {
    return keptOne(this.records.read(by.labId), RIG, rig);
  }

  @Get(':rig/history')
  @Duty('signed in')
  @Answers('Everything that was said of a rig', pageOf(versionOf(RigBody)))
  history(
    @Param('rig') rig: string,
    @Query(queriedBy(Paging)) paging: Paging,
    @SignedIn() by: SignedInActor,
  ): Promise<PageOf<KeptVersion<RigBody>>> {
    return keptHistory(this.records.read(by.labId), RIG, rig, paging);
  }

  @Post()
  @Duty('calibrate')
  @Answers('Enter a rig', KeptRig)
  enter(@Body(parsedBy(RigBody)) rig: RigBody, @SignedIn() by: SignedInActor): Promise<Kept<RigBody>> {
    return defined(this.records, by, RIG, rig);
  }

  @Put(':rig')
  @Duty('calibrate')
  @Answers('Say something else of a rig', KeptRig)
  change(
    @Param('rig') rig: string,
    @IfMatch() follows: number,
    @Body(parsedBy(changeTo(RigBody))) change: Change<RigBody>,
    @SignedIn() by: SignedInActor,
  ): Promise<Kept<RigBody>> {
    return revised(this.records, by, RIG, rig, change, follows);
  }
}
