import { CONCESSION_STATES, type Concession, type ConcessionState, limitName, Refusal } from '@breakbook/lab';
import { type Page, type RawStore, type Reader, Records, type Rows, tables } from '@breakbook/records';
import { Inject, Injectable } from '@nestjs/common';
import type { FindOptionsWhere } from 'typeorm';
import { acceptance } from '../arithmetic.js';
import { lastEvaluations } from '../evaluations/last-evaluations.js';
import { judgedLot } from '../lots/judged-lot.js';
import { storedLot } from '../lots/lot-bundle.js';
import type { PageOf } from '../records/kept.js';
import { Names } from '../records/names.js';
import { nextPlace, pageAsked } from '../records/paging.js';
import { RAW_STORE } from '../records/raw-store.token.js';
import { peopleBehind, saidBy } from '../records/read-kind.js';
import { revisionOf } from '../records/revisions.js';
import { dayInLab } from '../records/today.js';
import { within } from '../records/within.js';
import { requireOther } from '../sign-in/forbidden-pairs.js';
import type { SignedInActor } from '../sign-in/signed-in.decorator.js';
import {
  type ConcessionAnswer,
  type ConcessionsAsked,
  type ConcessionVersionAnswer,
  calledOf,
  concessionAnswer,
} from './concession-answers.js';

/** Concessions and deviation permits: asked for by one person, granted or refused by another, never for an external limit. */
@Injectable()
export class ConcessionsService {
  constructor(
    private readonly records: Records,
    @Inject(RAW_STORE) private readonly store: RawStore,
  ) {}

  async list(labId: string, { lot, ...paging }: ConcessionsAsked): Promise<PageOf<ConcessionAnswer>> {
    const reader = this.records.read(labId);
    const where: FindOptionsWhere<tables.Concession> = await within(reader, tables.Lot, 'lot', lot);
    const { rows, more } = await reader.page(
      tables.Concession,
      where,
      pageAsked(paging, 'number') as Page<tables.Concession>,
    );
    const items: ConcessionAnswer[] = [];
    for (const noun of rows) items.push(await answerOf(reader, noun));
    return { items, next: nextPlace(rows.at(-1)?.number, more) };
  }

  async one(labId: string, number: number): Promise<ConcessionAnswer> {
    const reader = this.records.read(labId);
    return answerOf(reader, await numbered(reader, number));
  }

  async history(labId: string, number: number): Promise<{ items: ConcessionVersionAnswer[] }> {
    const reader = this.records.read(labId);
    const versions = await reader.history(tables.ConcessionVersion, (await numbered(reader, number)).id);
    const people = await peopleBehind(reader, versions);
    return { items: versions.map((one) => ({ ...saidBy(one, people), state: one.state })) };
  }

  request(by: SignedInActor, content: Concession): Promise<ConcessionAnswer> {
    return this.records.change(by, `${content.kind} asked for`, async (rows) => {
      const names = new Names(rows, '');
      const lot = await names.of(tables.Lot, content.lot, '/lot');
      const limit = content.limit && (await names.of(tables.Limit, content.limit.limit, '/limit/limit'));
      names.refuse();
      if (!lot) throw new Error(`Lot ${content.lot} was found and is not there.`);
      await this.#requireMay(rows, content);
      const limitRevision =
        limit && content.limit && (await revisionOf(rows, tables.LimitRevision, limit.id, content.limit.revision));
      const noun = await rows.add(tables.Concession, { lotId: lot.id, limitRevisionId: limitRevision?.id ?? null });
      const version = await rows.addVersion(tables.ConcessionVersion, noun.id, { state: 'requested', content });
      return concessionAnswer(rows, noun, version, await dayInLab(rows, rows.at));
    });
  }

  /** Grants it, which none does who asked for it. What was allowed when it was asked for must still be. */
  grant(by: SignedInActor, number: number, seen: number, reason: string): Promise<ConcessionAnswer> {
    return this.#move(
      by,
      number,
      seen,
      { to: 'granted', from: CONCESSION_STATES.moves.grant.from, reason },
      async (rows, noun, content) => {
        requireOther(by, 'grant a concession', calledOf(content.kind, number), requestOf(noun, content, number));
        await this.#requireMay(rows, content);
      },
    );
  }

  refuse(by: SignedInActor, number: number, seen: number, reason: string): Promise<ConcessionAnswer> {
    return this.#move(
      by,
      number,
      seen,
      { to: 'refused', from: CONCESSION_STATES.moves.refuse.from, reason },
      async (_rows, noun, content) =>
        requireOther(by, 'grant a concession', calledOf(content.kind, number), requestOf(noun, content, number)),
    );
  }

  /** Takes it back: whoever asked for it, or whoever may grant. It covers nothing from then on. */
  withdraw(by: SignedInActor, number: number, seen: number, reason: string): Promise<ConcessionAnswer> {
    const move = { to: 'withdrawn', from: CONCESSION_STATES.moves.withdraw.from, reason } as const;
    return this.#move(by, number, seen, move, async (_rows, noun, content) => {
      if (noun.personId === by.personId || by.duties.includes('decide')) return;
      throw new Refusal({
        code: 'duty.conflict',
        detail: `${calledOf(content.kind, number)} was asked for by somebody else, so you cannot take it back.`,
        action: 'Have whoever asked for it, or somebody with the duty to decide, take it back.',
      });
    });
  }

  #move(
    by: SignedInActor,
    number: number,
    seen: number,
    move: { to: ConcessionState; from: readonly ConcessionState[]; reason: string },
    requireMay: (rows: Rows, noun: tables.Concession, content: Concession) => Promise<void>,
  ): Promise<ConcessionAnswer> {
    return this.records.change(by, `concession ${move.to}`, move.reason, async (rows) => {
      const noun = await numbered(rows, number);
      await rows.lock(tables.ConcessionVersion, noun.id);
      const { state, content } = await rows.latest(tables.ConcessionVersion, noun.id);
      if (!move.from.includes(state))
        throw new Refusal({
          code: 'state.conflict',
          detail: `${calledOf(content.kind, number)} is ${state} already. Nothing was changed.`,
          action: 'Ask for a new one where it is still needed.',
        });
      await requireMay(rows, noun, content);
      const version = await rows.addVersion(tables.ConcessionVersion, noun.id, { state: move.to, content }, seen);
      return concessionAnswer(rows, noun, version, await dayInLab(rows, rows.at));
    });
  }

  async #requireMay(rows: Rows, concession: Concession): Promise<void> {
    const { concessionProblem } = await acceptance();
    const { bundle, ids } = await storedLot(rows, concession.lot);
    const evaluation = (await lastEvaluations(rows, [ids.lotId])).get(ids.lotId);
    const judged = evaluation && (await judgedLot(rows, this.store, concession.lot, evaluation));
    const problem = concessionProblem({
      concession,
      bundle,
      evaluation: judged && { result: judged.lot, judgements: judged.judgements },
      today: await dayInLab(rows, rows.at),
    });
    if (problem) throw new Refusal(problem);
  }
}

function requestOf(noun: tables.Concession, { kind, limit }: Concession, number: number) {
  const about = limit === undefined ? '' : ` on ${limitName(limit)}`;
  return [
    { act: 'request a concession', personId: noun.personId, thing: `${calledOf(kind, number)}${about}` } as const,
  ];
}

async function numbered(reader: Reader, number: number): Promise<tables.Concession> {
  return (await reader.maybe(tables.Concession, { number })) ?? reader.one(tables.Concession, `${number}`);
}

async function answerOf(reader: Reader, noun: tables.Concession): Promise<ConcessionAnswer> {
  const version = await reader.latest(tables.ConcessionVersion, noun.id);
  return concessionAnswer(reader, noun, version, await dayInLab(reader, new Date()));
}
