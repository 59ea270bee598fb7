import { Calibration, Key } from '@breakbook/lab';
import { Records, tables } from '@breakbook/records';
import { Body, Controller, Get, Param, Post, Put, Query, UseInterceptors } from '@nestjs/common';
import { z } from 'zod';
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
import { PAGING, Paging } from '../records/paging.js';
import { keptHistory, keptOne, keptPage } from '../records/read-kind.js';
import { within } from '../records/within.js';
import { Duty } from '../sign-in/duty.decorator.js';
import { SignedIn, type SignedInActor } from '../sign-in/signed-in.decorator.js';
import { CALIBRATION } from './calibration-kind.js';
import { runsOfCalibration, TouchedRun } from './touched-runs.js';

const KeptCalibration = keptOf(Calibration);

const CalibrationsAsked = z.strictObject({ ...PAGING, sensor: Key.optional() });
type CalibrationsAsked = z.infer<typeof CalibrationsAsked>;

/** Calibration events: the only home of corrections. */
@Controller('api/calibrations')
@UseInterceptors(VersionTag)
export class CalibrationsController {
  constructor(private readonly records: Records) {}

  @Get()
  @Duty('signed in')
  @Answers('Calibrations, of one sensor where it is named', pageOf(KeptCalibration))
  async list(
    @Query(queriedBy(CalibrationsAsked)) { sensor, ...paging }: CalibrationsAsked,
    @SignedIn() by: SignedInActor,
  ): Promise<PageOf<Kept<Calibration>>> {
    const reader = this.records.read(by.labId);
    return keptPage(reader, CALIBRATION, paging, await within(reader, tables.Sensor, 'sensor', sensor));
  }

  @Get(':calibration')
  @Duty('signed in')
  @Answers('One calibration', KeptCalibration)
  one(@Param('calibration') calibration: string, @SignedIn() by: SignedInActor): Promise<Kept<Calibration>> {
    return keptOne(this.records.read(by.labId), CALIBRATION, calibration);
  }

  @Get(':calibration/history')
  @Duty('signed in')
  @Answers('Everything that was said of a calibration', pageOf(versionOf(Calibration)))
  history(
    @Param('calibration') calibration: string,
    @Query(queriedBy(Paging)) paging: Paging,
    @SignedIn() by: SignedInActor,
  ): Promise<PageOf<KeptVersion<Calibration>>> {
    return keptHistory(this.records.read(by.labId), CALIBRATION, calibration, paging);
  }

  @Get(':calibration/runs')
  @Duty('signed in')
  @Answers('Runs that this calibration corrected: who is touched where it is in question', pageOf(TouchedRun))
  runs(
    @Param('calibration') calibration: string,
    @Query(queriedBy(Paging)) paging: Paging,
    @SignedIn() by: SignedInActor,
  ): Promise<PageOf<TouchedRun>> {
    return runsOfCalibration(this.records.read(by.labId), calibration, paging);
  }

  @Post()
  @Duty('calibrate')
  @Answers('Enter a calibration', KeptCalibration)
  enter(
    @Body(parsedBy(Calibration)) calibration: Calibration,
    @SignedIn() by: SignedInActor,
  ): Promise<Kept<Calibration>> {
    return defined(this.records, by, CALIBRATION, calibration);
  }

  @Put(':calibration')
  @Duty('calibrate')
  @Answers('Say something else of a calibration', KeptCalibration)
  change(
    @Param('calibration') calibration: string,
    @IfMatch() follows: number,
    @Body(parsedBy(changeTo(Calibration))) change: Change<Calibration>,
    @SignedIn() by: SignedInActor,
  ): Promise<Kept<Calibration>> {
    return revised(this.records, by, CALIBRATION, calibration, change, follows);
  }
}
