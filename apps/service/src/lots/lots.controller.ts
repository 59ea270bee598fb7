import { Controller, Get, Header, Param, StreamableFile } from '@nestjs/common';
import { Duty } from '../sign-in/duty.decorator.js';
import { SignedIn, type SignedInActor } from '../sign-in/signed-in.decorator.js';
import { type LotInList, type LotSheet, LotsService, type RunSheet } from './lots.service.js';

@Controller('api/lots')
export class LotsController {
  constructor(private readonly lots: LotsService) {}

  @Get()
  @Duty('signed in')
  async list(@SignedIn() by: SignedInActor): Promise<{ lots: LotInList[] }> {
    return { lots: await this.lots.list(by.labId) };
  }

  @Get(':lot')
  @Duty('signed in')
  async sheet(@Param('lot') lot: string, @SignedIn() by: SignedInActor): Promise<LotSheet> {
    return this.lots.sheet(by.labId, lot);
  }

  @Get(':lot/runs/:run')
  @Duty('signed in')
  async run(@Param('lot') lot: string, @Param('run') run: string, @SignedIn() by: SignedInActor): Promise<RunSheet> {
    return this.lots.run(by.labId, lot, run);
  }

  @Get(':lot/report.pdf')
  @Duty('signed in')
  @Header('content-type', 'application/pdf')
  async report(@Param('lot') lot: string, @SignedIn() by: SignedInActor): Promise<StreamableFile> {
    const bytes = await this.lots.report(by.labId, lot);
    return new StreamableFile(bytes, {
      type: 'application/pdf',
      disposition: 'inline; filename="lot-test-report.pdf"',
    });
  }
}
