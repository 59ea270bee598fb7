import { Body, Controller, Get, Param, Post, Put, Query, UseInterceptors } from '@nestjs/common';
import { IfMatch } from '../http/if-match.decorator.js';
import { parsedBy } from '../http/parsed-by.js';
import { queriedBy } from '../http/queried-by.js';
import { shortNumber } from '../http/short-number.js';
import { VersionTag } from '../http/version-tag.interceptor.js';
import { Answers } from '../openapi/answers.decorator.js';
import { type Change, changeTo, type PageOf, pageOf } from '../records/kept.js';
import { Duty } from '../sign-in/duty.decorator.js';
import { SignedIn, type SignedInActor } from '../sign-in/signed-in.decorator.js';
import { NewObservation, ObservationAnswer, ObservationsAsked } from './observation-answers.js';
import { ObservationsService } from './observations.service.js';

/** What was seen of the features that a comparison declares. */
@Controller('api/comparisons/:comparison/observations')
@UseInterceptors(VersionTag)
export class ObservationsController {
  constructor(private readonly observations: ObservationsService) {}

  @Get()
  @Duty('signed in')
  @Answers('What was seen for a comparison, of one specimen or feature where it is named', pageOf(ObservationAnswer))
  list(
    @Param('comparison') comparison: string,
    @Query(queriedBy(ObservationsAsked)) asked: ObservationsAsked,
    @SignedIn() by: SignedInActor,
  ): Promise<PageOf<ObservationAnswer>> {
    return this.observations.list(by.labId, comparison, asked);
  }

  @Post()
  @Duty('record')
  @Answers('Write down what was seen of a declared feature on a specimen', ObservationAnswer)
  record(
    @Param('comparison') comparison: string,
    @Body(parsedBy(NewObservation)) body: NewObservation,
    @SignedIn() by: SignedInActor,
  ): Promise<ObservationAnswer> {
    return this.observations.record(by, comparison, body);
  }

  @Put(':n')
  @Duty('record')
  @Answers('Correct what was seen, with the reason; what was said before stays', ObservationAnswer)
  correct(
    @Param('comparison') comparison: string,
    @Param('n', shortNumber('observation')) number: number,
    @IfMatch() follows: number,
    @Body(parsedBy(changeTo(NewObservation))) change: Change<NewObservation>,
    @SignedIn() by: SignedInActor,
  ): Promise<ObservationAnswer> {
    return this.observations.correct(by, { comparison, number, follows }, change);
  }
}
