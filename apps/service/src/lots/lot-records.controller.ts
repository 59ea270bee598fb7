import { Key, Lot, SamplingRecord } from '@breakbook/lab';
import { type Reader, Records, tables } from '@breakbook/records';
import { Body, Controller, Get, HttpCode, Param, Post, Put, Query, UseInterceptors } from '@nestjs/common';
import { z } from 'zod';
import { IfMatch } from '../http/if-match.decorator.js';
import { parsedBy } from '../http/parsed-by.js';
import { queriedBy } from '../http/queried-by.js';
import { VersionTag } from '../http/version-tag.interceptor.js';
import { Answers } from '../openapi/answers.decorator.js';
import { revised } from '../records/change-kind.js';
import {
  Because,
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
import { keptAs, keptHistory, keptOne, peopleBehind, saidBy } from '../records/read-kind.js';
import { define } from '../records/write-kind.js';
import { Duty } from '../sign-in/duty.decorator.js';
import { SignedIn, type SignedInActor } from '../sign-in/signed-in.decorator.js';
import { isClosed, setClosed } from './lot-closing.js';
import { LOT, LotRecord } from './lot-kind.js';
import { samplingOf, writeSampling } from './sampling.js';

const KeptSampling = versionOf(SamplingRecord);
const KeptLot = keptOf(LotRecord).extend({
  closed: z.boolean(),
  /** How specimens were drawn; not there where the lab did not draw. */
  sampling: SamplingRecord.optional(),
});
interface KeptLot extends Kept<LotRecord> {
  closed: boolean;
  sampling?: SamplingRecord;
}

/** A new lot, with the record of how it was drawn where the lab drew. */
const NewLot = z.strictObject({ ...LotRecord.shape, sampling: Lot.shape.sampling });
type NewLot = z.infer<typeof NewLot>;

const LotState = z.strictObject({ lot: Key, closed: z.boolean() });
type LotState = z.infer<typeof LotState>;

/** Lots as they are on record: units made as one, how they were drawn, whether they are closed. */
@Controller('api/lots')
@UseInterceptors(VersionTag)
export class LotRecordsController {
  constructor(private readonly records: Records) {}

  @Get(':lot')
  @Duty('signed in')
  @Answers('One lot', KeptLot)
  one(@Param('lot') lot: string, @SignedIn() by: SignedInActor): Promise<KeptLot> {
    return keptLot(this.records.read(by.labId), lot);
  }

  @Get(':lot/history')
  @Duty('signed in')
  @Answers('Everything that was said of a lot', pageOf(versionOf(LotRecord)))
  history(
    @Param('lot') lot: string,
    @Query(queriedBy(Paging)) paging: Paging,
    @SignedIn() by: SignedInActor,
  ): Promise<PageOf<KeptVersion<LotRecord>>> {
    return keptHistory(this.records.read(by.labId), LOT, lot, paging);
  }

  @Post()
  @Duty('draw')
  @Answers('Enter a lot, with its sampling record where the lab drew', KeptLot)
  enter(@Body(parsedBy(NewLot)) { sampling, ...lot }: NewLot, @SignedIn() by: SignedInActor): Promise<KeptLot> {
    return this.records.change(by, 'lot entered', async (rows) => {
      const entered = await define(rows, LOT, lot);
      if (sampling) await writeSampling(rows, entered.noun, sampling, '/sampling', 0);
      const kept = await keptAs(rows, LOT, entered);
      return { ...kept, closed: false, ...(sampling ? { sampling } : {}) };
    });
  }

  @Put(':lot')
  @Duty('draw')
  @Answers('Say something else of a lot', keptOf(LotRecord))
  change(
    @Param('lot') lot: string,
    @IfMatch() follows: number,
    @Body(parsedBy(changeTo(LotRecord))) change: Change<LotRecord>,
    @SignedIn() by: SignedInActor,
  ): Promise<Kept<LotRecord>> {
    return revised(this.records, by, LOT, lot, change, follows);
  }

  @Get(':lot/sampling')
  @Duty('signed in')
  @Answers('How specimens were drawn from a lot', KeptSampling)
  async sampling(@Param('lot') lot: string, @SignedIn() by: SignedInActor): Promise<KeptVersion<SamplingRecord>> {
    const reader = this.records.read(by.labId);
    const { id } = await reader.named(tables.Lot, lot);
    return samplingAs(reader, await reader.latest(tables.SamplingRecord, id));
  }

  @Post(':lot/sampling')
  @Duty('draw')
  @Answers('Record how specimens were drawn, where nothing is recorded yet', KeptSampling)
  draw(
    @Param('lot') lot: string,
    @Body(parsedBy(SamplingRecord)) sampling: SamplingRecord,
    @SignedIn() by: SignedInActor,
  ): Promise<KeptVersion<SamplingRecord>> {
    return this.records.change(by, 'sampling recorded', async (rows) =>
      samplingAs(rows, await writeSampling(rows, await rows.named(tables.Lot, lot), sampling, '', 0)),
    );
  }

  @Put(':lot/sampling')
  @Duty('draw')
  @Answers('Correct how specimens were drawn', KeptSampling)
  drawnOtherwise(
    @Param('lot') lot: string,
    @IfMatch() follows: number,
    @Body(parsedBy(changeTo(SamplingRecord))) { content, reason }: Change<SamplingRecord>,
    @SignedIn() by: SignedInActor,
  ): Promise<KeptVersion<SamplingRecord>> {
    return this.records.change(by, 'sampling corrected', reason, async (rows) =>
      samplingAs(rows, await writeSampling(rows, await rows.named(tables.Lot, lot), content, '/content', follows)),
    );
  }

  @Post(':lot/closing')
  @HttpCode(200)
  @Duty('draw', 'decide')
  @Answers('Close a lot to further specimens and runs', LotState)
  close(
    @Param('lot') lot: string,
    @Body(parsedBy(Because)) { reason }: Because,
    @SignedIn() by: SignedInActor,
  ): Promise<LotState> {
    return this.records.change(by, 'lot closed', reason, async (rows) => {
      await setClosed(rows, lot, true);
      return { lot, closed: true };
    });
  }

  @Post(':lot/opening')
  @HttpCode(200)
  @Duty('draw', 'decide')
  @Answers('Open a closed lot again', LotState)
  open(
    @Param('lot') lot: string,
    @Body(parsedBy(Because)) { reason }: Because,
    @SignedIn() by: SignedInActor,
  ): Promise<LotState> {
    return this.records.change(by, 'lot opened again', reason, async (rows) => {
      await setClosed(rows, lot, false);
      return { lot, closed: false };
    });
  }
}

async function keptLot(reader: Reader, key: string): Promise<KeptLot> {
  const kept = await keptOne(reader, LOT, key);
  const { id } = await reader.named(tables.Lot, key);
  const sampling = await samplingOf(reader, id);
  return { ...kept, closed: await isClosed(reader, id), ...(sampling ? { sampling: sampling.content } : {}) };
}

async function samplingAs(reader: Reader, record: tables.SamplingRecord): Promise<KeptVersion<SamplingRecord>> {
  return { ...saidBy(record, await peopleBehind(reader, [record])), content: record.content };
}
