import { Refusal } from '@breakbook/lab';
import { Records } from '@breakbook/records';
import { Controller, Get, Header, Param, StreamableFile } from '@nestjs/common';
import { type LotInList, type LotSheet, LotsService, type RunSheet } from './lots.service.js';

@Controller('api/lots')
export class LotsController {
  constructor(
    private readonly lots: LotsService,
    private readonly records: Records,
  ) {}

  @Get()
  async list(): Promise<{ lots: LotInList[] }> {
    return { lots: await this.lots.list(await this.lab()) };
  }

  @Get(':lot')
  async sheet(@Param('lot') lot: string): Promise<LotSheet> {
    return this.lots.sheet(await this.lab(), lot);
  }

  @Get(':lot/runs/:run')
  async run(@Param('lot') lot: string, @Param('run') run: string): Promise<RunSheet> {
    return this.lots.run(await this.lab(), lot, run);
  }

  @Get(':lot/report.pdf')
  @Header('content-type', 'application/pdf')
  async report(@Param('lot') lot: string): Promise<StreamableFile> {
    const bytes = await this.lots.report(await this.lab(), lot);
    return new StreamableFile(bytes, {
      type: 'application/pdf',
      disposition: 'inline; filename="lot-test-report.pdf"',
    });
  }

  /** The one lab of this installation. */
  private async lab(): Promise<string> {
    const [lab] = await this.records.labs();
    if (!lab) throw new Refusal({ code: 'request.not-found', detail: 'There is no lab in this installation yet.' });
    return lab.id;
  }
}
