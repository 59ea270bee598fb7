import {
  DISPOSAL_STATES,
  DisposalDone,
  DisposalObstacle,
  DisposalState,
  Instant,
  Key,
  type MoveOf,
  NewDisposal,
  Paragraph,
  Refusal,
  requireMove,
  SPECIMEN_STATES,
} from '@breakbook/lab';
import { type Page, type Reader, Records, type Rows, tables } from '@breakbook/records';
import { Injectable } from '@nestjs/common';
import { In } from 'typeorm';
import { z } from 'zod';
import type { PageOf } from '../records/kept.js';
import { Names } from '../records/names.js';
import { nextPlace, type Paging, pageAsked } from '../records/paging.js';
import { peopleBehind } from '../records/read-kind.js';
import { dayInLab } from '../records/today.js';
import { requireOther } from '../sign-in/forbidden-pairs.js';
import type { SignedInActor } from '../sign-in/signed-in.decorator.js';
import { keepingOf } from './keeping-of.js';

/** A disposal as it stands. */
export const DisposalAnswer = z.strictObject({
  number: z.number().int().min(1),
  /** To be given back in If-Match with the next move. */
  version: z.number().int().min(1),
  state: DisposalState,
  askedBy: Key,
  askedAt: Instant,
  content: NewDisposal,
  /** How it was done, once it was. */
  done: DisposalDone.optional(),
  /** What is in the way today, while it is asked for or authorised. */
  obstacles: z.array(DisposalObstacle),
  items: z.array(z.strictObject({ state: DisposalState, by: Key, at: Instant, reason: Paragraph.optional() })),
});
export type DisposalAnswer = z.infer<typeof DisposalAnswer>;

/** Disposals of remnants: asked for by one person, authorised by another, recorded when they were done. */
@Injectable()
export class DisposalsService {
  constructor(private readonly records: Records) {}

  async list(labId: string, asked: Paging): Promise<PageOf<DisposalAnswer>> {
    const reader = this.records.read(labId);
    const page = pageAsked(asked, 'number') as Page<tables.Disposal>;
    const { rows, more } = await reader.page(tables.Disposal, {}, page);
    const items: DisposalAnswer[] = [];
    for (const noun of rows) items.push(await answerOf(reader, noun, new Date()));
    return { items, next: nextPlace(rows.at(-1)?.number, more) };
  }

  async one(labId: string, number: number): Promise<DisposalAnswer> {
    const reader = this.records.read(labId);
    return answerOf(reader, await numbered(reader, number), new Date());
  }

  ask(by: SignedInActor, content: NewDisposal): Promise<DisposalAnswer> {
    return this.records.change(by, 'disposal asked for', async (rows) => {
      const names = new Names(rows, '');
      const ids = new Set<string>();
      for (const [index, key] of content.specimens.entries())
        ids.add(await names.idOf(tables.Specimen, key, `/specimens/${index}`));
      names.refuse();
      const noun = await rows.add(tables.Disposal, { content });
      for (const specimenId of ids) await rows.add(tables.DisposalSpecimen, { disposalId: noun.id, specimenId });
      await requireDisposable(await specimensOf(rows, noun), rows);
      await rows.addVersion(tables.DisposalVersion, noun.id, { state: 'asked for', done: null });
      return answerOf(rows, noun, rows.at);
    });
  }

  authorise(by: SignedInActor, number: number, seen: number, reason: string): Promise<DisposalAnswer> {
    return this.#move(by, 'authorise', { number, seen, reason }, async (rows, noun, specimens) => {
      requireOther(by, 'authorise a disposal', `disposal ${number}`, askedFor(noun));
      await requireNothingInTheWay(rows, noun, specimens);
      return { state: 'authorised', done: null };
    });
  }

  refuse(by: SignedInActor, number: number, seen: number, reason: string): Promise<DisposalAnswer> {
    return this.#move(by, 'refuse', { number, seen, reason }, async (_rows, noun) => {
      requireOther(by, 'authorise a disposal', `disposal ${number}`, askedFor(noun));
      return { state: 'refused', done: null };
    });
  }

  withdraw(by: SignedInActor, number: number, seen: number, reason: string): Promise<DisposalAnswer> {
    return this.#move(by, 'withdraw', { number, seen, reason }, async (_rows, noun) => {
      if (noun.personId === by.personId || by.duties.includes('decide')) return { state: 'withdrawn', done: null };
      throw new Refusal({
        code: 'duty.conflict',
        detail: `Disposal ${number} was asked for by somebody else, so you cannot take it back.`,
        action: 'Have whoever asked for it, or somebody with the duty to decide, take it back.',
      });
    });
  }

  /** Records that it was done; from then on the specimens are disposed of, for good. */
  carryOut(by: SignedInActor, number: number, seen: number, done: DisposalDone): Promise<DisposalAnswer> {
    return this.#move(by, 'carry out', { number, seen, reason: done.how }, async (rows, noun, specimens) => {
      await requireNothingInTheWay(rows, noun, specimens);
      return { state: 'carried out', done };
    });
  }

  #move(
    by: SignedInActor,
    move: MoveOf<typeof DISPOSAL_STATES>,
    { number, seen, reason }: { number: number; seen: number; reason: string },
    work: (
      rows: Rows,
      noun: tables.Disposal,
      specimens: tables.Specimen[],
    ) => Promise<Pick<tables.DisposalVersion, 'state' | 'done'>>,
  ): Promise<DisposalAnswer> {
    return this.records.change(by, `disposal: ${move}`, reason, async (rows) => {
      const noun = await numbered(rows, number);
      const specimens = await specimensOf(rows, noun);
      // Specimens first, as whoever puts one in another state does, then the ledger: a legal hold that is placed in the
      // same moment either stands by then, or comes after.
      for (const { id } of specimens) await rows.lock(tables.Specimen, id);
      await rows.lockLedger();
      const { state } = await rows.latest(tables.DisposalVersion, noun.id);
      requireMove(DISPOSAL_STATES, move, state, `disposal ${number}`);
      const said = await work(rows, noun, specimens);
      await rows.addVersion(tables.DisposalVersion, noun.id, said, seen);
      if (said.done)
        for (const { id } of specimens)
          await rows.addVersion(tables.SpecimenState, id, { state: 'disposed', note: said.done.how });
      return answerOf(rows, noun, rows.at);
    });
  }
}

function askedFor({ personId, number }: tables.Disposal) {
  return [{ act: 'ask for a disposal', personId, thing: `disposal ${number}` } as const];
}

async function numbered(reader: Reader, number: number): Promise<tables.Disposal> {
  return (await reader.maybe(tables.Disposal, { number })) ?? reader.one(tables.Disposal, `${number}`);
}

/** In the order of their ids, so that two disposals never wait crosswise. */
async function specimensOf(reader: Reader, { id }: tables.Disposal): Promise<tables.Specimen[]> {
  const named = await reader.find(tables.DisposalSpecimen, { disposalId: id });
  return reader.find(tables.Specimen, { id: In(named.map(({ specimenId }) => specimenId)) });
}

/** Refuses what was disposed of before. */
async function requireDisposable(specimens: tables.Specimen[], reader: Reader): Promise<void> {
  for (const { specimen, state } of await keepingOf(reader, specimens, ''))
    requireMove(SPECIMEN_STATES, 'dispose', state, `specimen ${specimen}`);
}

async function requireNothingInTheWay(rows: Rows, noun: tables.Disposal, specimens: tables.Specimen[]): Promise<void> {
  await requireDisposable(specimens, rows);
  const obstacles = await obstaclesOf(rows, noun, specimens, rows.at);
  if (obstacles.length === 0) return;
  throw new Refusal(obstacles.map(({ what, action }) => ({ code: 'state.conflict' as const, detail: what, action })));
}

/** What is in the way, once each; an exception passes over a keep-until, and over nothing else. */
async function obstaclesOf(
  reader: Reader,
  { content }: tables.Disposal,
  specimens: tables.Specimen[],
  now: Date,
): Promise<DisposalObstacle[]> {
  const all = (await keepingOf(reader, specimens, await dayInLab(reader, now))).flatMap(({ obstacles }) => obstacles);
  const standing = all.filter(({ kind }) => kind !== 'keep-until' || content.exception === undefined);
  return [...new Map(standing.map((one) => [one.what, one])).values()];
}

async function answerOf(reader: Reader, noun: tables.Disposal, now: Date): Promise<DisposalAnswer> {
  const versions = await reader.history(tables.DisposalVersion, noun.id);
  const last = versions.at(-1);
  if (!last) throw new Error(`Disposal ${noun.number} has no version.`);
  const people = await peopleBehind(reader, [noun, ...versions]);
  const open = last.state === 'asked for' || last.state === 'authorised';
  return {
    number: noun.number,
    version: last.version,
    state: last.state,
    askedBy: people.get(noun.personId) ?? '',
    askedAt: noun.at.toISOString(),
    content: noun.content,
    ...(last.done === null ? {} : { done: last.done }),
    obstacles: open ? await obstaclesOf(reader, noun, await specimensOf(reader, noun), now) : [],
    items: versions.map(({ state, personId, at, reason }) => ({
      state,
      by: people.get(personId) ?? '',
      at: at.toISOString(),
      ...(reason === null ? {} : { reason }),
    })),
  };
}
