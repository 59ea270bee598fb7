import { Instant, Key, LEGAL_HOLD_STATES, NewLegalHold, Paragraph, requireMove } from '@breakbook/lab';
import { type Page, type Reader, Records, tables } from '@breakbook/records';
import { Body, Controller, Get, HttpCode, Param, Post, Query } from '@nestjs/common';
import { In } from 'typeorm';
import { z } from 'zod';
import { parsedBy } from '../http/parsed-by.js';
import { queriedBy } from '../http/queried-by.js';
import { shortNumber } from '../http/short-number.js';
import { Answers } from '../openapi/answers.decorator.js';
import { Because, type PageOf, pageOf } from '../records/kept.js';
import { Names } from '../records/names.js';
import { nextPlace, Paging, pageAsked } from '../records/paging.js';
import { peopleBehind } from '../records/read-kind.js';
import { Again, Duty } from '../sign-in/duty.decorator.js';
import { requireOther } from '../sign-in/forbidden-pairs.js';
import { SignedIn, type SignedInActor } from '../sign-in/signed-in.decorator.js';

const LegalHoldAnswer = z.strictObject({
  number: z.number().int().min(1),
  state: z.enum(LEGAL_HOLD_STATES.states),
  reference: z.string(),
  reason: Paragraph,
  lots: z.array(Key),
  specimens: z.array(Key),
  by: Key,
  at: Instant,
  /** Who lifted it, when and why. */
  lifted: z.strictObject({ by: Key, at: Instant, reason: Paragraph }).optional(),
});
type LegalHoldAnswer = z.infer<typeof LegalHoldAnswer>;

/** Legal holds: what must be kept as it is, whatever day was said for it. */
@Controller('api/legal-holds')
export class LegalHoldsController {
  constructor(private readonly records: Records) {}

  @Get()
  @Duty('signed in')
  @Answers('Legal holds, lifted ones too', pageOf(LegalHoldAnswer))
  async list(@Query(queriedBy(Paging)) asked: Paging, @SignedIn() by: SignedInActor): Promise<PageOf<LegalHoldAnswer>> {
    const reader = this.records.read(by.labId);
    const page = pageAsked(asked, 'number') as Page<tables.LegalHold>;
    const { rows, more } = await reader.page(tables.LegalHold, {}, page);
    const items: LegalHoldAnswer[] = [];
    for (const one of rows) items.push(await answerOf(reader, one));
    return { items, next: nextPlace(rows.at(-1)?.number, more) };
  }

  @Get(':n')
  @Duty('signed in')
  @Answers('One legal hold', LegalHoldAnswer)
  async one(@Param('n', shortNumber('legal hold')) n: number, @SignedIn() by: SignedInActor): Promise<LegalHoldAnswer> {
    const reader = this.records.read(by.labId);
    return answerOf(reader, await numbered(reader, n));
  }

  @Post()
  @Duty('review', 'decide', 'audit')
  @Answers('Place a legal hold on lots or specimens', LegalHoldAnswer)
  place(@Body(parsedBy(NewLegalHold)) body: NewLegalHold, @SignedIn() by: SignedInActor): Promise<LegalHoldAnswer> {
    return this.records.change(by, 'legal hold placed', body.reason, async (rows) => {
      // Before anything is read: a disposal of the same moment is either done by then, or sees the hold.
      await rows.lockLedger();
      const names = new Names(rows, '');
      const lots: string[] = [];
      for (const [index, key] of [...new Set(body.lots)].entries())
        lots.push(await names.idOf(tables.Lot, key, `/lots/${index}`));
      const specimens: string[] = [];
      for (const [index, key] of [...new Set(body.specimens)].entries())
        specimens.push(await names.idOf(tables.Specimen, key, `/specimens/${index}`));
      names.refuse();
      const { reference, reason } = body;
      const hold = await rows.add(tables.LegalHold, { reference, reason });
      for (const lotId of lots) await rows.add(tables.LegalHoldLot, { legalHoldId: hold.id, lotId });
      for (const specimenId of specimens)
        await rows.add(tables.LegalHoldSpecimen, { legalHoldId: hold.id, specimenId });
      return answerOf(rows, hold);
    });
  }

  @Post(':n/lifting')
  @HttpCode(200)
  @Duty('decide')
  @Again()
  @Answers('Lift a legal hold that somebody else placed', LegalHoldAnswer)
  lift(
    @Param('n', shortNumber('legal hold')) n: number,
    @Body(parsedBy(Because)) { reason }: Because,
    @SignedIn() by: SignedInActor,
  ): Promise<LegalHoldAnswer> {
    return this.records.change(by, 'legal hold lifted', reason, async (rows) => {
      await rows.lockLedger();
      const hold = await numbered(rows, n);
      requireMove(LEGAL_HOLD_STATES, 'lift', (await answerOf(rows, hold)).state, `legal hold ${n}`);
      const thing = `legal hold ${n}`;
      requireOther(by, 'lift a legal hold', thing, [{ act: 'place a legal hold', personId: hold.personId, thing }]);
      await rows.add(tables.LegalHoldLifting, { legalHoldId: hold.id, reason });
      return answerOf(rows, hold);
    });
  }
}

async function numbered(reader: Reader, number: number): Promise<tables.LegalHold> {
  return (await reader.maybe(tables.LegalHold, { number })) ?? reader.one(tables.LegalHold, `${number}`);
}

async function answerOf(reader: Reader, hold: tables.LegalHold): Promise<LegalHoldAnswer> {
  const legalHoldId = hold.id;
  const lots = await reader.find(tables.LegalHoldLot, { legalHoldId });
  const specimens = await reader.find(tables.LegalHoldSpecimen, { legalHoldId });
  const lifting = await reader.maybe(tables.LegalHoldLifting, { legalHoldId });
  const people = await peopleBehind(reader, [hold, ...(lifting ? [lifting] : [])]);
  const keys = (nouns: { key: string }[]) => nouns.map(({ key }) => key).sort();
  return {
    number: hold.number,
    state: lifting ? 'lifted' : 'in force',
    reference: hold.reference,
    reason: hold.reason,
    lots: keys(await reader.find(tables.Lot, { id: In(lots.map(({ lotId }) => lotId)) })),
    specimens: keys(await reader.find(tables.Specimen, { id: In(specimens.map(({ specimenId }) => specimenId)) })),
    by: people.get(hold.personId) ?? '',
    at: hold.at.toISOString(),
    ...(lifting
      ? { lifted: { by: people.get(lifting.personId) ?? '', at: lifting.at.toISOString(), reason: lifting.reason } }
      : {}),
  };
}
