import {
  lackingToClose,
  type MoveOf,
  mayMove,
  NONCONFORMITY_STATES,
  type Nonconformity,
  type NonconformityState,
  Refusal,
} from '@breakbook/lab';
import { type Noun, type Reader, Records, type Rows, tables } from '@breakbook/records';
import { Injectable } from '@nestjs/common';
import type { PageOf } from '../records/kept.js';
import { Names } from '../records/names.js';
import { nextPlace, pageAsked } from '../records/paging.js';
import { peopleBehind } from '../records/read-kind.js';
import { within } from '../records/within.js';
import { type Done, requireOther } from '../sign-in/forbidden-pairs.js';
import type { SignedInActor } from '../sign-in/signed-in.decorator.js';
import {
  type ChangedNonconformity,
  type NewNonconformity,
  type NonconformitiesAsked,
  type NonconformityAnswer,
  type NonconformityVersionAnswer,
  nonconformityAnswer,
  versionAnswer,
} from './nonconformity-answers.js';

/** Nonconformities: opened by the records or by a person, worked on, and closed by somebody who wrote nothing of them. */
@Injectable()
export class NonconformitiesService {
  constructor(private readonly records: Records) {}

  async list(
    labId: string,
    { state = 'open', lot, ...paging }: NonconformitiesAsked,
  ): Promise<PageOf<NonconformityAnswer>> {
    const reader = this.records.read(labId);
    const { limit, descending, after } = pageAsked(paging, 'number');
    const { lotId } = (await within<{ lotId?: string } & Noun, tables.Lot>(reader, tables.Lot, 'lot', lot)) as {
      lotId?: string;
    };
    const found = await reader.manager.query<{ id: string; number: number }[]>(
      `select noun.id, noun.number from nonconformity noun
       join lateral (
         select id, state from nonconformity_version
         where lab_id = noun.lab_id and record_id = noun.id order by version desc limit 1
       ) said on true
       where noun.lab_id = $1 and ($2 = 'any' or said.state = $2)
         and ($3::uuid is null or exists (
           select from nonconformity_lot
           where lab_id = noun.lab_id and version_id = said.id and lot_id = $3))
         and ($4::integer is null or ${descending ? 'noun.number < $4' : 'noun.number > $4'})
       order by noun.number ${descending ? 'desc' : 'asc'} limit $5`,
      [labId, state, lotId ?? null, after ?? null, limit + 1],
    );
    const items: NonconformityAnswer[] = [];
    for (const { id } of found.slice(0, limit))
      items.push(await answerOf(reader, await reader.one(tables.Nonconformity, id)));
    return { items, next: nextPlace(items.at(-1)?.number, found.length > limit) };
  }

  async one(labId: string, number: number): Promise<NonconformityAnswer> {
    const reader = this.records.read(labId);
    return answerOf(reader, await numbered(reader, number));
  }

  async history(labId: string, number: number): Promise<{ items: NonconformityVersionAnswer[] }> {
    const reader = this.records.read(labId);
    const versions = await reader.history(tables.NonconformityVersion, (await numbered(reader, number)).id);
    const people = await peopleBehind(reader, versions);
    return { items: versions.map((one) => versionAnswer(one, people)) };
  }

  open(by: SignedInActor, content: NewNonconformity): Promise<NonconformityAnswer> {
    return this.records.change(by, 'nonconformity opened', async (rows) => {
      const whole = { ...content, source: 'found by a person' } as const;
      const lotIds = await lotsConcerned(rows, whole, '');
      const noun = await rows.add(tables.Nonconformity, { source: whole.source, runId: null });
      return say(rows, noun, { state: 'open', content: whole, lotIds });
    });
  }

  /** Says something else of an open one: its cause, what contains it, what is done about it, what else it concerns. */
  work(
    by: SignedInActor,
    number: number,
    seen: number,
    { content, reason }: ChangedNonconformity,
  ): Promise<NonconformityAnswer> {
    return this.records.change(by, 'nonconformity worked on', reason, async (rows) => {
      const { noun } = await held(rows, number, 'write in');
      const whole = { ...content, source: noun.source };
      const lotIds = await lotsConcerned(rows, whole, '/content');
      return say(rows, noun, { state: 'open', content: whole, lotIds, seen });
    });
  }

  /** Closes one: by somebody who wrote nothing of it, and only where it is said what caused it and what was done. */
  close(by: SignedInActor, number: number, seen: number, reason: string): Promise<NonconformityAnswer> {
    return this.records.change(by, 'nonconformity closed', reason, async (rows) => {
      const { noun, version, versions } = await held(rows, number, 'close');
      const lacking = lackingToClose(version.content);
      if (lacking.length > 0)
        throw new Refusal({
          code: 'state.conflict',
          detail: `Nonconformity ${number} cannot be closed while nothing is said of its ${lacking.join(', ')}.`,
          action: 'Have it said by whoever works on it, then close it.',
        });
      requireOther(by, 'close a nonconformity', `nonconformity ${number}`, writersOf(number, noun, versions));
      const lotIds = await lotsConcerned(rows, version.content, '');
      return say(rows, noun, { state: 'closed', content: version.content, lotIds, seen });
    });
  }

  /** Opens a closed one again, since it came back or was not dealt with after all. */
  reopen(by: SignedInActor, number: number, seen: number, reason: string): Promise<NonconformityAnswer> {
    return this.records.change(by, 'nonconformity opened again', reason, async (rows) => {
      const { noun, version } = await held(rows, number, 'open again');
      const lotIds = await lotsConcerned(rows, version.content, '');
      return say(rows, noun, { state: 'open', content: version.content, lotIds, seen });
    });
  }
}

/** Whoever wrote any of it. What the records opened by themselves was written by nobody. */
function writersOf(number: number, noun: tables.Nonconformity, versions: tables.NonconformityVersion[]): Done[] {
  const written = versions.filter(({ version }) => version > 1 || noun.source === 'found by a person');
  return written.map(({ personId }) => ({
    act: 'write a nonconformity',
    personId,
    thing: `nonconformity ${number}`,
  }));
}

async function numbered(reader: Reader, number: number): Promise<tables.Nonconformity> {
  return (await reader.maybe(tables.Nonconformity, { number })) ?? reader.one(tables.Nonconformity, `${number}`);
}

async function answerOf(reader: Reader, noun: tables.Nonconformity): Promise<NonconformityAnswer> {
  return nonconformityAnswer(reader, noun, await reader.latest(tables.NonconformityVersion, noun.id));
}

/** One in a state that has the move, kept from others until the change ends. */
async function held(rows: Rows, number: number, move: MoveOf<typeof NONCONFORMITY_STATES>) {
  const noun = await numbered(rows, number);
  await rows.lock(tables.NonconformityVersion, noun.id);
  const versions = await rows.history(tables.NonconformityVersion, noun.id);
  const version = versions.at(-1);
  if (!version) throw new Error(`Nonconformity ${number} has no version.`);
  if (!mayMove(NONCONFORMITY_STATES, move, version.state))
    throw new Refusal({
      code: 'state.conflict',
      detail: `Nonconformity ${number} is ${version.state}. Nothing was changed.`,
      action: version.state === 'closed' ? 'Open it again first, with the reason.' : 'Close it first.',
    });
  return { noun, version, versions };
}

async function say(
  rows: Rows,
  noun: tables.Nonconformity,
  said: { state: NonconformityState; content: Nonconformity; lotIds: string[]; seen?: number },
): Promise<NonconformityAnswer> {
  const { state, content, lotIds, seen } = said;
  const version = await rows.addVersion(tables.NonconformityVersion, noun.id, { state, content }, seen);
  for (const lotId of lotIds) await rows.add(tables.NonconformityLot, { versionId: version.id, lotId });
  return nonconformityAnswer(rows, noun, version);
}

/** The lots it names, and those of the runs and specimens it names; what is not there is told by its place. */
async function lotsConcerned(rows: Rows, { lots, runs, specimens }: Nonconformity, at: string): Promise<string[]> {
  const names = new Names(rows, at);
  const ids = await names.lotsOf({ lots, runs });
  for (const [index, key] of specimens.entries()) {
    const specimen = await names.of(tables.Specimen, key, `/specimens/${index}`);
    if (specimen) ids.add(specimen.lotId);
  }
  if (lots.length + runs.length + specimens.length === 0)
    names.note('body.missing-field', '/lots', 'it names nothing it concerns; name a lot, a run or a specimen.');
  names.refuse();
  return [...ids];
}
