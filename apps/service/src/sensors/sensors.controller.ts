import { Sensor } from '@breakbook/lab';
import { Records } from '@breakbook/records';
import { Body, Controller, Get, Param, Post, Put, Query, UseInterceptors } from '@nestjs/common';
import { runsOfSensor, TouchedRun } from '../calibrations/touched-runs.js';
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
import { SENSOR } from './sensor-kind.js';

const KeptSensor = keptOf(Sensor);

/** Sensors, which move between rigs. Where one sits is said at the rig; its corrections are its calibrations. */
@Controller('api/sensors')
@UseInterceptors(VersionTag)
export class SensorsController {
  constructor(private readonly records: Records) {}

  @Get()
  @Duty('signed in')
  @Answers('Sensors', pageOf(KeptSensor))
  list(@Query(queriedBy(Paging)) paging: Paging, @SignedIn() by: SignedInActor): Promise<PageOf<Kept<Sensor>>> {
    return keptPage(this.records.read(by.labId), SENSOR, paging);
  }

  @Get(':sensor')
  @Duty('signed in')
  @Answers('One sensor', KeptSensor)
  one(@Param('sensor') sensor: string, @SignedIn() by: SignedInActor): Promise<Kept<Sensor>> {
    return keptOne(this.records.read(by.labId), SENSOR, sensor);
  }

  @Get(':sensor/history')
  @Duty('signed in')
  @Answers('Everything that was said of a sensor', pageOf(versionOf(Sensor)))
  history(
    @Param('sensor') sensor: string,
    @Query(queriedBy(Paging)) paging: Paging,
    @SignedIn() by: SignedInActor,
  ): Promise<PageOf<KeptVersion<Sensor>>> {
    return keptHistory(this.records.read(by.labId), SENSOR, sensor, paging);
  }

  @Get(':sensor/runs')
  @Duty('signed in')
  @Answers('Runs that this sensor measured in: who is touched where it is in question', pageOf(TouchedRun))
  runs(
    @Param('sensor') sensor: string,
    @Query(queriedBy(Paging)) paging: Paging,
    @SignedIn() by: SignedInActor,
  ): Promise<PageOf<TouchedRun>> {
    return runsOfSensor(this.records.read(by.labId), sensor, paging);
  }

  @Post()
  @Duty('calibrate')
  @Answers('Enter a sensor', KeptSensor)
  enter(@Body(parsedBy(Sensor)) sensor: Sensor, @SignedIn() by: SignedInActor): Promise<Kept<Sensor>> {
    return defined(this.records, by, SENSOR, sensor);
  }

  @Put(':sensor')
  @Duty('calibrate')
  @Answers('Say something else of a sensor', KeptSensor)
  change(
    @Param('sensor') sensor: string,
    @IfMatch() follows: number,
    @Body(parsedBy(changeTo(Sensor))) change: Change<Sensor>,
    @SignedIn() by: SignedInActor,
  ): Promise<Kept<Sensor>> {
    return revised(this.records, by, SENSOR, sensor, change, follows);
  }
}
