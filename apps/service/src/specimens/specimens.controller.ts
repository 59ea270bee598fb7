import { Key, Line, Specimen } from '@breakbook/lab';
import { type Reader, Records, tables } from '@breakbook/records';
import { Body, Controller, Get, Param, Post, Put, Query, UseInterceptors } from '@nestjs/common';
import { In } from 'typeorm';
import { z } from 'zod';
import { hiddenFrom } from '../comparisons/blinds.js';
import { IfMatch } from '../http/if-match.decorator.js';
import { parsedBy } from '../http/parsed-by.js';
import { queriedBy } from '../http/queried-by.js';
import { VersionTag } from '../http/version-tag.interceptor.js';
import { Answers } from '../openapi/answers.decorator.js';
import { revised } from '../records/change-kind.js';
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
import { keptAs, keptHistory, keptOne, keptPage } from '../records/read-kind.js';
import { within } from '../records/within.js';
import { Duty } from '../sign-in/duty.decorator.js';
import { SignedIn, type SignedInActor } from '../sign-in/signed-in.decorator.js';
import { calledSo } from './called-so.js';
import { receive } from './receive.js';
import { SeenSpecimen, seenBy } from './seen-specimen.js';
import { Fate, fatesOf } from './specimen-fate.js';
import { SPECIMEN } from './specimen-kind.js';

const SpecimensAsked = z.strictObject({ ...PAGING, lot: Key.optional(), called: Line.optional() });
type SpecimensAsked = z.infer<typeof SpecimensAsked>;

const KeptSpecimen = keptOf(SeenSpecimen).extend(Fate.shape);
type KeptSpecimen = Kept<SeenSpecimen> & Fate;

const MOST_AT_ONCE = 200;
const Delivery = z.strictObject({ specimens: z.array(Specimen).min(1).max(MOST_AT_ONCE) });
type Delivery = z.infer<typeof Delivery>;
const Received = z.strictObject({ items: z.array(keptOf(Specimen)) });

/** Wheels and rims, each of one lot. */
@Controller('api/specimens')
@UseInterceptors(VersionTag)
export class SpecimensController {
  constructor(private readonly records: Records) {}

  @Get()
  @Duty('signed in')
  @Answers('Specimens, of one lot or called by one code or serial where it is named', pageOf(KeptSpecimen))
  async list(
    @Query(queriedBy(SpecimensAsked)) { lot, called, ...paging }: SpecimensAsked,
    @SignedIn() by: SignedInActor,
  ): Promise<PageOf<KeptSpecimen>> {
    const reader = this.records.read(by.labId);
    const hidden = await hiddenFrom(reader, by);
    const page = await keptPage(reader, SPECIMEN, paging, {
      ...(await within<tables.Specimen, tables.Lot>(reader, tables.Lot, 'lot', lot)),
      ...(called === undefined ? {} : { id: In(await calledSo(reader, called, hidden)) }),
    });
    return { ...page, items: await withFates(reader, seenBy(hidden, page.items)) };
  }

  @Get(':specimen')
  @Duty('signed in')
  @Answers('One specimen', KeptSpecimen)
  async one(@Param('specimen') specimen: string, @SignedIn() by: SignedInActor): Promise<KeptSpecimen> {
    const reader = this.records.read(by.labId);
    const kept = await keptOne(reader, SPECIMEN, specimen);
    const [whole] = await withFates(reader, seenBy(await hiddenFrom(reader, by), [kept]));
    if (!whole) throw new Error(`Specimen ${specimen} has no fate.`);
    return whole;
  }

  @Get(':specimen/history')
  @Duty('signed in')
  @Answers('Everything that was said of a specimen', pageOf(versionOf(SeenSpecimen)))
  async history(
    @Param('specimen') specimen: string,
    @Query(queriedBy(Paging)) paging: Paging,
    @SignedIn() by: SignedInActor,
  ): Promise<PageOf<KeptVersion<SeenSpecimen>>> {
    const reader = this.records.read(by.labId);
    const page = await keptHistory(reader, SPECIMEN, specimen, paging);
    return { ...page, items: seenBy(await hiddenFrom(reader, by), page.items) };
  }

  @Post()
  @Duty('draw')
  @Answers('Receive one specimen', keptOf(Specimen))
  receive(@Body(parsedBy(Specimen)) specimen: Specimen, @SignedIn() by: SignedInActor): Promise<Kept<Specimen>> {
    return this.records.change(by, 'specimen received', async (rows) =>
      keptAs(rows, SPECIMEN, await receive(rows, specimen, '')),
    );
  }

  @Post('several')
  @Duty('draw')
  @Answers('Receive several specimens: all of them, or none', Received)
  receiveSeveral(
    @Body(parsedBy(Delivery)) { specimens }: Delivery,
    @SignedIn() by: SignedInActor,
  ): Promise<{ items: Kept<Specimen>[] }> {
    return this.records.change(by, 'specimens received', async (rows) => {
      const items: Kept<Specimen>[] = [];
      for (const [index, specimen] of specimens.entries())
        items.push(await keptAs(rows, SPECIMEN, await receive(rows, specimen, `/specimens/${index}`)));
      return { items };
    });
  }

  @Put(':specimen')
  @Duty('draw')
  @Answers('Say something else of a specimen', keptOf(Specimen))
  change(
    @Param('specimen') specimen: string,
    @IfMatch() follows: number,
    @Body(parsedBy(changeTo(Specimen))) change: Change<Specimen>,
    @SignedIn() by: SignedInActor,
  ): Promise<Kept<Specimen>> {
    return revised(this.records, by, SPECIMEN, specimen, change, follows);
  }
}

async function withFates(reader: Reader, kept: Kept<SeenSpecimen>[]): Promise<KeptSpecimen[]> {
  const nouns = await reader.find(tables.Specimen, { key: In(kept.map(({ key }) => key)) });
  const fates = await fatesOf(
    reader,
    nouns.map(({ id }) => id),
  );
  const idOf = new Map(nouns.map(({ id, key }) => [key, id]));
  return kept.map((one) => ({ ...one, ...(fates.get(idOf.get(one.key) ?? '') ?? { state: 'received' }) }));
}
