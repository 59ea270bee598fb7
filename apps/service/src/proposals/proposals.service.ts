import { canonicalJson, differencesBetween, sha256 } from '@breakbook/evidence';
import { type Plan, type PlanInWords, Refusal, requireMove } from '@breakbook/lab';
import { type Page, type Reader, Records, type Rows, tables } from '@breakbook/records';
import { Injectable } from '@nestjs/common';
import { In, Not } from 'typeorm';
import { acceptance } from '../arithmetic.js';
import { limitsOf } from '../lots/lot-bundle.js';
import { noteUnapproved } from '../plans/plan-kind.js';
import type { PageOf } from '../records/kept.js';
import { Names } from '../records/names.js';
import { nextPlace, pageAsked } from '../records/paging.js';
import { dayNamed, standings } from '../records/standing.js';
import { dayInLab } from '../records/today.js';
import { requireOther } from '../sign-in/forbidden-pairs.js';
import type { SignedInActor } from '../sign-in/signed-in.decorator.js';
import { approvedBefore, proposed } from './definitions.js';
import type { Approval, Declining, ProposalAnswer, ProposalInList, ProposalsAsked } from './proposal-answers.js';

/** Methods, layouts, limits and plans by two people: what is proposed, and what another person decides about it. */
@Injectable()
export class ProposalsService {
  constructor(private readonly records: Records) {}

  async list(labId: string, { state = 'any', ...paging }: ProposalsAsked): Promise<PageOf<ProposalInList>> {
    const reader = this.records.read(labId);
    const page = pageAsked(paging, 'number' as const) as Page<tables.Proposal>;
    const decided = state === 'waiting' ? await reader.find(tables.ProposalDecision, {}) : [];
    const where = decided.length === 0 ? {} : { id: Not(In(decided.map(({ proposalId }) => proposalId))) };
    const { rows, more } = await reader.page(tables.Proposal, where, page);
    const items: ProposalInList[] = [];
    for (const row of rows) items.push((await this.#described(reader, row)).inList);
    return { items, next: nextPlace(rows.at(-1)?.number, more) };
  }

  async one(labId: string, number: number): Promise<ProposalAnswer> {
    const reader = this.records.read(labId);
    return this.#answer(reader, await numbered(reader, number));
  }

  /** Approves a revision: from its day on it is what runs are made and judged by. */
  async approve(by: SignedInActor, number: number, { shown }: Approval): Promise<ProposalAnswer> {
    const proposal = await numbered(this.records.read(by.labId), number);
    const { word } = proposed(proposal);
    return this.records.change(by, `${word} approved`, async (rows) => {
      const { inList, revision } = await this.#held(rows, proposal, 'approve', shown);
      const thing = `${word} ${inList.key} rev. ${inList.revision}`;
      requireOther(by, 'approve a limit', thing, [{ act: 'propose a limit', personId: proposal.personId, thing }]);
      requireNamed(by, inList, thing);
      if (word === 'plan') await requirePlanRests(rows, revision.content as Plan);
      const inForceFrom = dayNamed(revision.content) ?? (await dayInLab(rows, rows.at));
      await rows.add(tables.ProposalDecision, {
        proposalId: proposal.id,
        decision: 'approved',
        shownSha256: shown,
        inForceFrom,
        because: null,
      });
      return this.#answer(rows, proposal);
    });
  }

  /** Declines a revision, or takes it back: it never judges anything, and the next one has the next number. */
  async decline(by: SignedInActor, number: number, { shown, because }: Declining): Promise<ProposalAnswer> {
    const proposal = await numbered(this.records.read(by.labId), number);
    const { word } = proposed(proposal);
    return this.records.change(by, `${word} declined`, because, async (rows) => {
      await this.#held(rows, proposal, 'decline', shown);
      await rows.add(tables.ProposalDecision, {
        proposalId: proposal.id,
        decision: 'declined',
        shownSha256: shown,
        inForceFrom: null,
        because,
      });
      return this.#answer(rows, proposal);
    });
  }

  /** The proposal as it stands, kept so until the change ends; refused where it is decided, or something else was shown. */
  async #held(rows: Rows, proposal: tables.Proposal, move: 'approve' | 'decline', shown: string) {
    await rows.lock(tables.Proposal, proposal.id);
    const described = await this.#described(rows, proposal);
    const { inList, kind, revision } = described;
    const stands = (await standings(rows, kind, [revision.recordId])).get(revision.id);
    const thing = `${inList.noun} ${inList.key} rev. ${inList.revision}`;
    requireMove(kind.states, move, stands?.state ?? 'proposed', thing);
    if (shown !== digestOf(revision.content))
      throw new Refusal({
        code: 'version.stale',
        pointer: '/shown',
        found: shown,
        expected: digestOf(revision.content),
        detail: `/shown: what was shown has another digest than ${thing} as it is kept.`,
        action: 'Look at the proposal again, and send the sha256 of what you have read.',
      });
    return described;
  }

  async #answer(reader: Reader, proposal: tables.Proposal): Promise<ProposalAnswer> {
    const { inList, kind, revision } = await this.#described(reader, proposal);
    const before = await approvedBefore(reader, kind, revision);
    return {
      ...inList,
      content: revision.content,
      ...(inList.noun === 'plan' ? { planInWords: await planSaid(reader, revision as tables.PlanRevision) } : {}),
      sha256: digestOf(revision.content),
      ...(before ? { follows: before.content.revision } : {}),
      differences: differencesBetween(before?.content ?? {}, revision.content),
    };
  }

  async #described(reader: Reader, proposal: tables.Proposal) {
    const { word, kind, revisionId } = proposed(proposal);
    const revision = await reader.one(kind.versions, revisionId);
    const noun = await reader.one(kind.nouns, revision.recordId);
    const decision = await reader.maybe(tables.ProposalDecision, { proposalId: proposal.id });
    const personIds = [proposal.personId, ...(decision ? [decision.personId] : [])];
    const people = await reader.find(tables.Person, { id: In(personIds) });
    const keyOf = (id: string) => people.find((one) => one.id === id)?.key ?? '';
    const { content } = revision;
    const inList: ProposalInList = {
      number: proposal.number,
      noun: word,
      key: noun.key,
      revision: content.revision,
      title: 'title' in content ? content.title : `Files of rig ${'rig' in content ? content.rig : noun.key}`,
      state: decision?.decision ?? 'waiting',
      proposedBy: keyOf(proposal.personId),
      proposedAt: proposal.at.toISOString(),
      ...(revision.reason === null ? {} : { reason: revision.reason }),
      before: await mayApprove(reader, content, proposal.personId),
      ...(decision ? { decidedBy: keyOf(decision.personId), decidedAt: decision.at.toISOString() } : {}),
      ...(decision?.inForceFrom ? { inForceFrom: decision.inForceFrom } : {}),
      ...(decision?.because ? { because: decision.because } : {}),
    };
    return { inList, kind, revision };
  }
}

async function planSaid(reader: Reader, { id, content }: tables.PlanRevision): Promise<PlanInWords> {
  const { planInWords } = await acceptance();
  return planInWords(content, await limitsOf(reader, id));
}

async function numbered(reader: Reader, number: number): Promise<tables.Proposal> {
  const proposal = await reader.maybe(tables.Proposal, { number });
  if (proposal) return proposal;
  throw new Refusal({ code: 'request.not-found', detail: `There is no proposal ${number} in this lab.` });
}

function digestOf(content: object): string {
  return sha256(canonicalJson(content));
}

/** Who may approve: whom the content names, or else everybody else with the duty who does not administer the lab. */
async function mayApprove(reader: Reader, content: object, proposerId: string): Promise<string[]> {
  if ('approvedBy' in content && typeof content.approvedBy === 'string') return [content.approvedBy];
  const people = await reader.find(tables.Person, { kind: 'person' });
  const said = await reader.latestOf(
    tables.PersonVersion,
    people.map(({ id }) => id),
  );
  return people.flatMap(({ id, key }) => {
    const duties = said.get(id)?.content.duties ?? [];
    return id !== proposerId && duties.includes('define') && !duties.includes('administer') ? [key] : [];
  });
}

/** What a content says of who approved it stays true: nobody else does. */
function requireNamed(by: SignedInActor, { before }: ProposalInList, thing: string): void {
  if (before.includes(by.person)) return;
  throw new Refusal({
    code: 'duty.conflict',
    found: by.person,
    expected: before.join(', '),
    detail: `${thing} was put before ${before.join(', ') || 'nobody who may approve it'}, so you cannot approve it.`,
    action: 'Have them approve it, or decline it and have the next revision name you.',
  });
}

/** A plan rests on nothing that is only proposed. */
async function requirePlanRests(rows: Rows, plan: Plan): Promise<void> {
  const names = new Names(rows, '');
  await noteUnapproved(names, plan);
  names.refuse();
}
