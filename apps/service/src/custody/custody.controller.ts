import { CustodyEvent, Instant, Key, Refusal } from '@breakbook/lab';
import { type Reader, Records, tables } from '@breakbook/records';
import { Body, Controller, Get, Param, Post } from '@nestjs/common';
import { z } from 'zod';
import { acceptance } from '../arithmetic.js';
import { HIDDEN, hiddenFrom } from '../comparisons/blinds.js';
import { parsedBy } from '../http/parsed-by.js';
import { Answers } from '../openapi/answers.decorator.js';
import { completed } from '../records/completed.js';
import { Duty } from '../sign-in/duty.decorator.js';
import { SignedIn, type SignedInActor } from '../sign-in/signed-in.decorator.js';
import { requireConsent } from './require-consent.js';

/** A clock may be this far ahead of ours, in ms. */
const CLOCK_AHEAD = 5 * 60_000;

const { specimen: _specimen, recordedBy: _recordedBy, ...fields } = CustodyEvent.shape;
/** What happened to an item; who wrote it down is added. */
const NewCustodyEvent = z.strictObject(fields);
type NewCustodyEvent = z.infer<typeof NewCustodyEvent>;

const Custody = z.strictObject({
  specimen: Key,
  /** In the order in which it happened, each with when it was written down. */
  items: z.array(z.strictObject({ ...CustodyEvent.shape, recordedAt: Instant })),
  /** What does not join up, told as it is; not told to whoever examines it blind. */
  gaps: z.array(
    z.strictObject({ specimen: Key, after: Instant.optional(), before: Instant.optional(), sentence: z.string() }),
  ),
  /** You are not to know which item is which, before conclusions are locked. */
  hiddenFromYou: z.boolean(),
});
type Custody = z.infer<typeof Custody>;

/** Who had a specimen from whom, when, where, under which seal and in what condition. */
@Controller('api/specimens/:specimen/custody')
export class CustodyController {
  constructor(private readonly records: Records) {}

  @Get()
  @Duty('signed in')
  @Answers('Custody of a specimen from its receipt, gaps told', Custody)
  async read(@Param('specimen') specimen: string, @SignedIn() by: SignedInActor): Promise<Custody> {
    const reader = this.records.read(by.labId);
    return custodyShown(reader, await reader.named(tables.Specimen, specimen), by);
  }

  @Post()
  @Duty('trace', 'draw')
  @Answers('Add to the custody of a specimen; nothing of it is ever changed', Custody)
  add(
    @Param('specimen') key: string,
    @Body(parsedBy(NewCustodyEvent)) event: NewCustodyEvent,
    @SignedIn() by: SignedInActor,
  ): Promise<Custody> {
    return this.records.change(by, `custody: ${event.step}`, async (rows) => {
      const specimen = await rows.named(tables.Specimen, key);
      const content = completed(CustodyEvent, { ...event, specimen: key, recordedBy: by.person });
      if (Date.parse(content.at) > rows.at.getTime() + CLOCK_AHEAD)
        throw new Refusal({
          code: 'body.range',
          pointer: '/at',
          found: content.at,
          detail: '/at: lies in the future. Write down what has happened.',
        });
      if (content.changesItem) await requireConsent(rows, specimen, { what: content.step, at: content.at });
      await rows.add(tables.CustodyEvent, { specimenId: specimen.id, content });
      return custodyShown(rows, specimen, by);
    });
  }
}

/** The custody of specimens, in the order in which it happened. */
async function custodyOf(reader: Reader, specimenId: string): Promise<tables.CustodyEvent[]> {
  const events = await reader.find(tables.CustodyEvent, { specimenId });
  return events.toSorted((a, b) => Date.parse(a.content.at) - Date.parse(b.content.at));
}

async function custodyShown(reader: Reader, { id, key }: tables.Specimen, by: SignedInActor): Promise<Custody> {
  const { custodyGaps } = await acceptance();
  const events = await custodyOf(reader, id);
  const hidden = (await hiddenFrom(reader, by)).has(key);
  return {
    specimen: key,
    items: events.map(({ content, at }) => ({
      ...(hidden ? veiled(content) : content),
      recordedAt: at.toISOString(),
    })),
    gaps: hidden ? [] : custodyGaps(events.map(({ content }) => content)),
    hiddenFromYou: hidden,
  };
}

/** Where it came from tells what it is. */
function veiled(event: CustodyEvent): CustodyEvent {
  const { from, seal } = event;
  return {
    ...event,
    ...(from === undefined ? {} : { from: HIDDEN }),
    ...(seal === undefined ? {} : { seal: HIDDEN }),
    to: HIDDEN,
    place: HIDDEN,
    condition: HIDDEN,
  };
}
