import { Key, Refusal, requireMove, SAFETY_FLAG_STATES, type SafetyFlag, SafetyFlagState } from '@breakbook/lab';
import { type Reader, Records, type Rows, tables } from '@breakbook/records';
import { Injectable } from '@nestjs/common';
import { In } from 'typeorm';
import { z } from 'zod';
import type { JobAnswer } from '../jobs/job.js';
import { PackagesService } from '../packages/packages.service.js';
import type { PageOf } from '../records/kept.js';
import { Names } from '../records/names.js';
import { nextPlace, PAGING, pageAsked } from '../records/paging.js';
import { within } from '../records/within.js';
import { requireOther } from '../sign-in/forbidden-pairs.js';
import type { SignedInActor } from '../sign-in/signed-in.decorator.js';
import { flagAnswer, flagHistory, flagNumbered, type SafetyFlagAnswer } from './flags-of.js';
import { type TouchedLot, touchedLots } from './touched-lots.js';

export const SafetyFlagsAsked = z.strictObject({
  ...PAGING,
  state: z.enum([...SafetyFlagState.options, 'any']).optional(),
  lot: Key.optional(),
});
export type SafetyFlagsAsked = z.infer<typeof SafetyFlagsAsked>;

/** Product-safety flags: raised by anybody, closed by somebody who wrote nothing in them. Nothing here decides one. */
@Injectable()
export class SafetyFlagsService {
  constructor(
    private readonly records: Records,
    private readonly packages: PackagesService,
  ) {}

  async list(labId: string, { state = 'open', lot, ...paging }: SafetyFlagsAsked): Promise<PageOf<SafetyFlagAnswer>> {
    const reader = this.records.read(labId);
    const { limit, descending, after } = pageAsked(paging, 'number');
    const { lotId } = (await within(reader, tables.Lot, 'lot', lot)) as { lotId?: string };
    const found = await reader.manager.query<{ id: string; number: number }[]>(
      `select flag.id, flag.number from safety_flag flag
       join lateral (
         select id, state from safety_flag_version
         where lab_id = flag.lab_id and record_id = flag.id order by version desc limit 1
       ) said on true
       where flag.lab_id = $1 and ($2 = 'any' or said.state = $2)
         and ($3::uuid is null or exists (
           select from safety_flag_lot where lab_id = flag.lab_id and version_id = said.id and lot_id = $3))
         and ($4::integer is null or ${descending ? 'flag.number < $4' : 'flag.number > $4'})
       order by flag.number ${descending ? 'desc' : 'asc'} limit $5`,
      [labId, state, lotId ?? null, after ?? null, limit + 1],
    );
    const items: SafetyFlagAnswer[] = [];
    for (const { id } of found.slice(0, limit))
      items.push(await answerOf(reader, await reader.one(tables.SafetyFlag, id)));
    return { items, next: nextPlace(items.at(-1)?.number, found.length > limit) };
  }

  async one(labId: string, number: number): Promise<SafetyFlagAnswer> {
    const reader = this.records.read(labId);
    return answerOf(reader, await flagNumbered(reader, number));
  }

  async history(labId: string, number: number): Promise<{ items: SafetyFlagAnswer[] }> {
    const reader = this.records.read(labId);
    return { items: await flagHistory(reader, await flagNumbered(reader, number)) };
  }

  async touched(labId: string, number: number): Promise<{ items: TouchedLot[] }> {
    const reader = this.records.read(labId);
    return { items: await touchedLots(reader, await flagNumbered(reader, number)) };
  }

  raise(by: SignedInActor, content: SafetyFlag): Promise<SafetyFlagAnswer> {
    return this.records.change(by, 'safety flag raised', async (rows) => {
      const lotIds = await lotsConcerned(rows, content, '');
      const flag = await rows.add(tables.SafetyFlag, {});
      return say(rows, flag, { state: 'open', content, lotIds });
    });
  }

  writeIn(
    by: SignedInActor,
    number: number,
    { seen, content, reason }: { seen: number; content: SafetyFlag; reason: string },
  ): Promise<SafetyFlagAnswer> {
    return this.records.change(by, 'safety flag written in', reason, async (rows) => {
      const { flag } = await held(rows, number, 'write in');
      const lotIds = await lotsConcerned(rows, content, '/content');
      return say(rows, flag, { state: 'open', content, lotIds, seen });
    });
  }

  /** Closes it with the decision that people came to; whoever wrote in it does not. */
  close(by: SignedInActor, number: number, seen: number, decision: string): Promise<SafetyFlagAnswer> {
    return this.records.change(by, 'safety flag closed', decision, async (rows) => {
      const { flag, version } = await held(rows, number, 'close');
      const thing = `safety flag ${number}`;
      const written = await rows.history(tables.SafetyFlagVersion, flag.id);
      requireOther(
        by,
        'close a safety flag',
        thing,
        written.map(({ personId }) => ({ act: 'write a safety flag', personId, thing })),
      );
      const lotIds = await lotsConcerned(rows, version.content, '');
      return say(rows, flag, { state: 'closed', content: version.content, lotIds, seen });
    });
  }

  /** Has a lot packed as evidence: one that the flag concerns or may touch. */
  async pack(by: SignedInActor, number: number, lot: string): Promise<JobAnswer> {
    const reader = this.records.read(by.labId);
    const touched = await touchedLots(reader, await flagNumbered(reader, number));
    if (!touched.some((one) => one.lot === lot))
      throw new Refusal({
        code: 'body.not-found',
        pointer: '/lot',
        found: lot,
        detail: `/lot: safety flag ${number} neither concerns nor touches a lot of this name.`,
        action: `Name one of ${touched.map((one) => one.lot).join(', ')}.`,
      });
    return this.packages.ask(by, lot, number);
  }
}

async function answerOf(reader: Reader, flag: tables.SafetyFlag): Promise<SafetyFlagAnswer> {
  return flagAnswer(reader, flag, await reader.latest(tables.SafetyFlagVersion, flag.id));
}

async function held(rows: Rows, number: number, move: 'write in' | 'close') {
  const flag = await flagNumbered(rows, number);
  await rows.lock(tables.SafetyFlagVersion, flag.id);
  const version = await rows.latest(tables.SafetyFlagVersion, flag.id);
  requireMove(SAFETY_FLAG_STATES, move, version.state, `safety flag ${number}`);
  return { flag, version };
}

async function say(
  rows: Rows,
  flag: tables.SafetyFlag,
  said: { state: SafetyFlagState; content: SafetyFlag; lotIds: string[]; seen?: number },
): Promise<SafetyFlagAnswer> {
  const { state, content, lotIds, seen } = said;
  const version = await rows.addVersion(tables.SafetyFlagVersion, flag.id, { state, content }, seen);
  for (const lotId of lotIds) await rows.add(tables.SafetyFlagLot, { versionId: version.id, lotId });
  return flagAnswer(rows, flag, version);
}

/** The lots it names, and those of the runs and nonconformities it names; what is not there is told by its place. */
async function lotsConcerned(rows: Rows, { lots, runs, nonconformities }: SafetyFlag, at: string): Promise<string[]> {
  const names = new Names(rows, at);
  const ids = await names.lotsOf({ lots, runs });
  const found = await rows.find(tables.Nonconformity, { number: In([...nonconformities]) });
  for (const [index, number] of nonconformities.entries()) {
    const one = found.find((nonconformity) => nonconformity.number === number);
    if (!one) {
      names.note('body.not-found', `/nonconformities/${index}`, `there is no nonconformity ${number}.`, number);
      continue;
    }
    const said = await rows.latest(tables.NonconformityVersion, one.id);
    for (const { lotId } of await rows.find(tables.NonconformityLot, { versionId: said.id })) ids.add(lotId);
  }
  names.refuse();
  return [...ids];
}
