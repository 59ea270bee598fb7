import { Records } from '@breakbook/records';
import { Controller, Get, Header, Param, Query, StreamableFile } from '@nestjs/common';
import { refuseBlinded } from '../comparisons/blinds.js';
import { queriedBy } from '../http/queried-by.js';
import { Answers } from '../openapi/answers.decorator.js';
import { type PageOf, pageOf } from '../records/kept.js';
import { Duty } from '../sign-in/duty.decorator.js';
import { SignedIn, type SignedInActor } from '../sign-in/signed-in.decorator.js';
import { LotInList, LotSheet, LotsAsked, RunSheet } from './lot-answers.js';
import { LotsService } from './lots.service.js';

@Controller('api/lots')
export class LotsController {
  constructor(
    private readonly lots: LotsService,
    private readonly records: Records,
  ) {}

  @Get()
  @Duty('signed in')
  @Answers('Lots, each as its last evaluation left it', pageOf(LotInList))
  list(@Query(queriedBy(LotsAsked)) asked: LotsAsked, @SignedIn() by: SignedInActor): Promise<PageOf<LotInList>> {
    return this.lots.list(by.labId, asked);
  }

  @Get(':lot/sheet')
  @Duty('signed in')
  @Answers('A lot with everything its last evaluation rests on and came to', LotSheet)
  async sheet(@Param('lot') lot: string, @SignedIn() by: SignedInActor): Promise<LotSheet> {
    await refuseBlinded(this.records.read(by.labId), by, lot, `The sheet of lot ${lot}`);
    return this.lots.sheet(by.labId, lot);
  }

  @Get(':lot/runs/:run')
  @Duty('signed in')
  @Answers('A run as its lot judges it', RunSheet)
  async run(@Param('lot') lot: string, @Param('run') run: string, @SignedIn() by: SignedInActor): Promise<RunSheet> {
    await refuseBlinded(this.records.read(by.labId), by, lot, `Run ${run} as lot ${lot} judges it`);
    return this.lots.run(by.labId, lot, run);
  }

  @Get(':lot/report.pdf')
  @Duty('signed in')
  @Answers('The report of the last evaluation of a lot')
  @Header('content-type', 'application/pdf')
  async report(@Param('lot') lot: string, @SignedIn() by: SignedInActor): Promise<StreamableFile> {
    await refuseBlinded(this.records.read(by.labId), by, lot, `The report of lot ${lot}`);
    const bytes = await this.lots.report(by.labId, lot);
    return new StreamableFile(bytes, {
      type: 'application/pdf',
      disposition: 'inline; filename="lot-test-report.pdf"',
    });
  }
}
