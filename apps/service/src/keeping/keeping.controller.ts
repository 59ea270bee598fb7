import { Instant, Key, LotKeeping, Paragraph, SpecimenKeeping } from '@breakbook/lab';
import { type Page, type Reader, Records, tables } from '@breakbook/records';
import { Body, Controller, Get, Param, Put, Query, UseInterceptors } from '@nestjs/common';
import { z } from 'zod';
import { hiddenFrom, refuseBlinded } from '../comparisons/blinds.js';
import { IfMatch } from '../http/if-match.decorator.js';
import { parsedBy } from '../http/parsed-by.js';
import { queriedBy } from '../http/queried-by.js';
import { VersionTag } from '../http/version-tag.interceptor.js';
import { Answers } from '../openapi/answers.decorator.js';
import { type PageOf, pageOf } from '../records/kept.js';
import { nextPlace, PAGING, pageAsked } from '../records/paging.js';
import { peopleBehind } from '../records/read-kind.js';
import { dayInLab } from '../records/today.js';
import { Again, Duty } from '../sign-in/duty.decorator.js';
import { SignedIn, type SignedInActor } from '../sign-in/signed-in.decorator.js';
import { KeepingOfSpecimen, keepingOf, keepingSeen } from './keeping-of.js';
import { LotKeepingAnswer, lotKeeping } from './lot-keeping.js';

const SpecimenKeepingAnswer = KeepingOfSpecimen.extend({
  /** To be given back in If-Match with what is said next. */
  version: z.number().int().min(1),
  /** What was said of the specimen itself, the last word last. */
  said: z.array(SpecimenKeeping.extend({ by: Key, at: Instant, reason: Paragraph.optional() })),
});
type SpecimenKeepingAnswer = z.infer<typeof SpecimenKeepingAnswer>;

const KeepingAsked = z.strictObject(PAGING);
type KeepingAsked = z.infer<typeof KeepingAsked>;

/** Until when records and remnants are kept, and what may be disposed of. */
@Controller('api')
@UseInterceptors(VersionTag)
export class KeepingController {
  constructor(private readonly records: Records) {}

  @Get('keeping')
  @Duty('signed in')
  @Answers('What may be disposed of, and what keeps the rest', pageOf(KeepingOfSpecimen))
  async list(
    @Query(queriedBy(KeepingAsked)) asked: KeepingAsked,
    @SignedIn() by: SignedInActor,
  ): Promise<PageOf<KeepingOfSpecimen>> {
    const reader = this.records.read(by.labId);
    const page = pageAsked(asked, 'number') as Page<tables.Specimen>;
    const { rows, more } = await reader.page(tables.Specimen, {}, page);
    const items = await keepingOf(reader, rows, await dayInLab(reader, new Date()));
    return {
      items: keepingSeen(await hiddenFrom(reader, by), items),
      next: nextPlace(rows.at(-1)?.number, more),
    };
  }

  @Get('lots/:lot/keeping')
  @Duty('signed in')
  @Answers('How long records and remnants of a lot are kept, and what is proposed', LotKeepingAnswer)
  async ofLot(@Param('lot') lot: string, @SignedIn() by: SignedInActor): Promise<LotKeepingAnswer> {
    const reader = this.records.read(by.labId);
    const noun = await reader.named(tables.Lot, lot);
    await refuseBlinded(reader, by, lot, `How long specimens of lot ${lot} are kept`);
    return lotKeeping(reader, noun, new Date());
  }

  @Put('lots/:lot/keeping')
  @Duty('decide')
  @Again()
  @Answers('Say until when records and remnants of a lot are kept', LotKeepingAnswer)
  sayOfLot(
    @Param('lot') lotKey: string,
    @Body(parsedBy(LotKeeping)) body: LotKeeping,
    @IfMatch() seen: number,
    @SignedIn() by: SignedInActor,
  ): Promise<LotKeepingAnswer> {
    return this.records.change(by, 'keeping of a lot said', body.note, async (rows) => {
      const lot = await rows.named(tables.Lot, lotKey);
      await rows.addVersion(tables.LotKeeping, lot.id, body, seen - 1);
      return lotKeeping(rows, lot, rows.at);
    });
  }

  @Get('specimens/:specimen/keeping')
  @Duty('signed in')
  @Answers('How long the remnants of a specimen are kept', SpecimenKeepingAnswer)
  async ofSpecimen(@Param('specimen') key: string, @SignedIn() by: SignedInActor): Promise<SpecimenKeepingAnswer> {
    const reader = this.records.read(by.labId);
    const keeping = await specimenKeeping(reader, await reader.named(tables.Specimen, key), new Date());
    const [{ origin } = keeping] = keepingSeen(await hiddenFrom(reader, by), [keeping]);
    return { ...keeping, origin };
  }

  @Put('specimens/:specimen/keeping')
  @Duty('decide')
  @Again()
  @Answers(
    'Say until when the remnants of a specimen are kept, where it is another day than its lot’s',
    SpecimenKeepingAnswer,
  )
  sayOfSpecimen(
    @Param('specimen') key: string,
    @Body(parsedBy(SpecimenKeeping)) body: SpecimenKeeping,
    @IfMatch() seen: number,
    @SignedIn() by: SignedInActor,
  ): Promise<SpecimenKeepingAnswer> {
    return this.records.change(by, 'keeping of a specimen said', body.note, async (rows) => {
      const specimen = await rows.named(tables.Specimen, key);
      await rows.addVersion(tables.SpecimenKeeping, specimen.id, body, seen - 1);
      return specimenKeeping(rows, specimen, rows.at);
    });
  }
}

async function specimenKeeping(reader: Reader, specimen: tables.Specimen, now: Date): Promise<SpecimenKeepingAnswer> {
  const said = await reader.history(tables.SpecimenKeeping, specimen.id);
  const people = await peopleBehind(reader, said);
  const [keeping] = await keepingOf(reader, [specimen], await dayInLab(reader, now));
  if (!keeping) throw new Error(`Nothing is said of specimen ${specimen.key}.`);
  return {
    ...keeping,
    version: said.length + 1,
    said: said.map(({ until, note, personId, at, reason }) => ({
      until,
      note,
      by: people.get(personId) ?? '',
      at: at.toISOString(),
      ...(reason === null ? {} : { reason }),
    })),
  };
}
