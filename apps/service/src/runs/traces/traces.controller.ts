import { Readable } from 'node:stream';
import { Controller, Get, Header, Param, Query, StreamableFile } from '@nestjs/common';
import { z } from 'zod';
import { queriedBy } from '../../http/queried-by.js';
import { Answers } from '../../openapi/answers.decorator.js';
import { Duty } from '../../sign-in/duty.decorator.js';
import { SignedIn, type SignedInActor } from '../../sign-in/signed-in.decorator.js';
import { csvOf } from './trace-csv.js';
import { ChannelOfRun, ChannelsAsked, WindowAsked, WindowOfChannel } from './trace-forms.js';
import { parquetOf } from './trace-parquet.js';
import { TracesService } from './traces.service.js';

@Controller('api/runs')
export class TracesController {
  constructor(private readonly traces: TracesService) {}

  @Get(':run/channels')
  @Duty('signed in')
  @Answers('The channels of a run as they are judged', z.strictObject({ items: z.array(ChannelOfRun) }))
  async channels(@Param('run') run: string, @SignedIn() by: SignedInActor): Promise<{ items: ChannelOfRun[] }> {
    return { items: await this.traces.channels(by.labId, run) };
  }

  @Get(':run/channels.csv')
  @Duty('signed in')
  @Answers('The channels of one record of a run as a file of layout 1, corrected already')
  @Header('content-type', 'text/csv')
  async csv(
    @Param('run') run: string,
    @Query(queriedBy(ChannelsAsked)) asked: ChannelsAsked,
    @SignedIn() by: SignedInActor,
  ): Promise<StreamableFile> {
    const table = await this.traces.table(by.labId, run, asked);
    return new StreamableFile(Readable.from(csvOf(table)), {
      type: 'text/csv',
      disposition: `attachment; filename="run-channels.csv"`,
    });
  }

  @Get(':run/channels.parquet')
  @Duty('signed in')
  @Answers('The channels of one record of a run as a Parquet file, corrected already')
  @Header('content-type', 'application/vnd.apache.parquet')
  async parquet(
    @Param('run') run: string,
    @Query(queriedBy(ChannelsAsked)) asked: ChannelsAsked,
    @SignedIn() by: SignedInActor,
  ): Promise<StreamableFile> {
    const table = await this.traces.table(by.labId, run, asked);
    return new StreamableFile(Readable.from(parquetOf(table), { objectMode: false }), {
      type: 'application/vnd.apache.parquet',
      disposition: `attachment; filename="run-channels.parquet"`,
    });
  }

  @Get(':run/channels/:channel')
  @Duty('signed in')
  @Answers('Part of a channel of a run, drawn without losing a peak; all of it where no part is named', WindowOfChannel)
  window(
    @Param('run') run: string,
    @Param('channel') channel: string,
    @Query(queriedBy(WindowAsked)) asked: WindowAsked,
    @SignedIn() by: SignedInActor,
  ): Promise<WindowOfChannel> {
    return this.traces.window(by.labId, run, channel, asked);
  }
}
