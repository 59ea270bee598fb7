import { OPINION_STATES, type Opinion, Refusal, requireMove } from '@breakbook/lab';
import { type Page, type Reader, Records, type Rows, tables } from '@breakbook/records';
import { Injectable } from '@nestjs/common';
import { type FindOptionsWhere, In } from 'typeorm';
import { notAuthorisedFor } from '../competence/competence-of.js';
import { lastEvaluations } from '../evaluations/last-evaluations.js';
import type { PageOf } from '../records/kept.js';
import { Names } from '../records/names.js';
import { nextPlace, pageAsked } from '../records/paging.js';
import { within } from '../records/within.js';
import { requireOther } from '../sign-in/forbidden-pairs.js';
import type { SignedInActor } from '../sign-in/signed-in.decorator.js';
import type { NewOpinion, OpinionAnswer, OpinionsAsked } from './opinion-answers.js';
import { opinionAnswer } from './opinions-of.js';

/** Opinions and interpretations: given by somebody authorised for what they are about, bound to its results. */
@Injectable()
export class OpinionsService {
  constructor(private readonly records: Records) {}

  async list(labId: string, { lot, run, ...paging }: OpinionsAsked): Promise<PageOf<OpinionAnswer>> {
    const reader = this.records.read(labId);
    const where: FindOptionsWhere<tables.Opinion> = {
      ...(await within(reader, tables.Lot, 'lot', lot)),
      ...(await within(reader, tables.Run, 'run', run)),
    };
    const page = pageAsked(paging, 'number') as Page<tables.Opinion>;
    const { rows, more } = await reader.page(tables.Opinion, where, page);
    const items: OpinionAnswer[] = [];
    for (const noun of rows) items.push(await answerOf(reader, noun));
    return { items, next: nextPlace(rows.at(-1)?.number, more) };
  }

  async one(labId: string, number: number): Promise<OpinionAnswer> {
    const reader = this.records.read(labId);
    return answerOf(reader, await numbered(reader, number));
  }

  async history(labId: string, number: number): Promise<{ items: OpinionAnswer[] }> {
    const reader = this.records.read(labId);
    const noun = await numbered(reader, number);
    const items: OpinionAnswer[] = [];
    for (const version of await reader.history(tables.OpinionVersion, noun.id))
      items.push(await opinionAnswer(reader, noun, version));
    return { items };
  }

  give(by: SignedInActor, { lot, run, ...content }: NewOpinion): Promise<OpinionAnswer> {
    return this.records.change(by, 'opinion given', async (rows) => {
      const names = new Names(rows, '');
      const ofRun = run === undefined ? undefined : await names.of(tables.Run, run, '/run');
      const ofLot = lot === undefined ? undefined : await names.of(tables.Lot, lot, '/lot');
      names.refuse();
      const lotId = ofRun ? (await rows.one(tables.Specimen, ofRun.specimenId)).lotId : (ofLot?.id ?? '');
      const about = { lotId, runId: ofRun?.id ?? null };
      const evaluationId = await resultsOf(rows, about, ofRun ? '/run' : '/lot');
      await requireMaySay(rows, by, about);
      const noun = await rows.add(tables.Opinion, about);
      const version = await rows.addVersion(tables.OpinionVersion, noun.id, { state: 'given', content, evaluationId });
      return opinionAnswer(rows, noun, version);
    });
  }

  sayAnew(
    by: SignedInActor,
    number: number,
    { seen, content, reason }: { seen: number; content: Opinion; reason: string },
  ): Promise<OpinionAnswer> {
    return this.records.change(by, 'opinion said anew', reason, async (rows) => {
      const { noun } = await held(rows, number, 'say anew');
      const evaluationId = await resultsOf(rows, noun);
      await requireMaySay(rows, by, noun);
      const said = { state: 'given', content, evaluationId } as const;
      return opinionAnswer(rows, noun, await rows.addVersion(tables.OpinionVersion, noun.id, said, seen));
    });
  }

  withdraw(by: SignedInActor, number: number, seen: number, reason: string): Promise<OpinionAnswer> {
    return this.records.change(by, 'opinion taken back', reason, async (rows) => {
      const { noun, version } = await held(rows, number, 'withdraw');
      await requireMaySay(rows, by, noun);
      const { content, evaluationId } = version;
      const said = { state: 'withdrawn', content, evaluationId } as const;
      return opinionAnswer(rows, noun, await rows.addVersion(tables.OpinionVersion, noun.id, said, seen));
    });
  }
}

type About = Pick<tables.Opinion, 'lotId' | 'runId'>;

async function numbered(reader: Reader, number: number): Promise<tables.Opinion> {
  return (await reader.maybe(tables.Opinion, { number })) ?? reader.one(tables.Opinion, `${number}`);
}

async function answerOf(reader: Reader, noun: tables.Opinion): Promise<OpinionAnswer> {
  return opinionAnswer(reader, noun, await reader.latest(tables.OpinionVersion, noun.id));
}

async function held(rows: Rows, number: number, move: 'say anew' | 'withdraw') {
  const noun = await numbered(rows, number);
  await rows.lock(tables.OpinionVersion, noun.id);
  const version = await rows.latest(tables.OpinionVersion, noun.id);
  requireMove(OPINION_STATES, move, version.state, `opinion ${number}`);
  return { noun, version };
}

/** The evaluation an opinion rests on; refused where there is no result to have one about. */
async function resultsOf(reader: Reader, { lotId, runId }: About, pointer?: string): Promise<string | null> {
  const evaluation = (await lastEvaluations(reader, [lotId])).get(lotId);
  const at = pointer === undefined ? {} : { pointer };
  if (runId !== null) {
    const decided = (await reader.latestOf(tables.ValidityDecision, [runId])).get(runId);
    if (decided && decided.validity !== 'void') return evaluation?.id ?? null;
    throw new Refusal({
      code: 'state.conflict',
      ...at,
      detail: `The run's validity is ${decided ? 'void' : 'not decided'}, so there is no result to have an opinion about.`,
      action: 'Have its validity decided first.',
    });
  }
  if (evaluation) return evaluation.id;
  throw new Refusal({
    code: 'state.conflict',
    ...at,
    detail: 'The lot was never evaluated, so there is no result to have an opinion about.',
    action: 'Have the lot evaluated first.',
  });
}

/** Says who is not authorised for the methods behind the results; who administers the lab answers for none. */
async function requireMaySay(reader: Reader, by: SignedInActor, { lotId, runId }: About): Promise<void> {
  const thing = runId === null ? (await reader.one(tables.Lot, lotId)).key : (await reader.one(tables.Run, runId)).key;
  requireOther(by, 'give an opinion', `${runId === null ? 'lot' : 'run'} ${thing}`, []);
  const specimens = await reader.find(tables.Specimen, { lotId });
  const runs = runId === null ? await reader.find(tables.Run, { specimenId: In(specimens.map(({ id }) => id)) }) : [];
  const bodies = await reader.latestOf(tables.RunVersion, runId === null ? runs.map(({ id }) => id) : [runId]);
  const methods = [...new Set([...bodies.values()].map(({ methodRevisionId }) => methodRevisionId))];
  const lacking = await notAuthorisedFor(reader, by.personId, methods);
  if (lacking.length === 0) return;
  throw new Refusal({
    code: 'auth.forbidden',
    detail: `An opinion is given by whoever is authorised for what it is about, and you are not, today, for ${lacking.join(', ')}.`,
    action: 'Have it given by somebody who is, or have your competence recorded by another person.',
  });
}
