import {
  COMPARISON_STATES,
  Comparison,
  ConsentOrNotice,
  type MoveOf,
  Refusal,
  requireMove,
  shown as shortened,
} from '@breakbook/lab';
import { Records, type Rows, tables } from '@breakbook/records';
import { Injectable } from '@nestjs/common';
import { In } from 'typeorm';
import { completed } from '../records/completed.js';
import type { Change, PageOf } from '../records/kept.js';
import { Names } from '../records/names.js';
import { nextPlace, pageAsked } from '../records/paging.js';
import { within } from '../records/within.js';
import { requireOther } from '../sign-in/forbidden-pairs.js';
import type { SignedInActor } from '../sign-in/signed-in.decorator.js';
import { refuseClaims } from './claims.js';
import type {
  ComparisonAnswer,
  ComparisonApproval,
  ComparisonDeclining,
  ComparisonInList,
  ComparisonRevisionAnswer,
  ComparisonsAsked,
  NewComparison,
} from './comparison-answers.js';
import {
  type ComparisonStanding,
  comparisonAnswer,
  comparisonInList,
  declaredRevisions,
  digestOfDeclared,
  heldComparison,
  standingOf,
} from './comparison-standing.js';
import { comparisonsOfItem } from './comparisons-of-item.js';
import { addCompared, columnsOf } from './declared.js';

/** Comparisons: declared before testing, approved by another person, declared anew only with a reason. */
@Injectable()
export class ComparisonsService {
  constructor(private readonly records: Records) {}

  async list(labId: string, { product, specimen, ...paging }: ComparisonsAsked): Promise<PageOf<ComparisonInList>> {
    const reader = this.records.read(labId);
    const { specimenId } = (await within(reader, tables.Specimen, 'specimen', specimen)) as { specimenId?: string };
    const where = {
      ...(await within<tables.Comparison, tables.Product>(reader, tables.Product, 'product', product)),
      ...(specimenId === undefined ? {} : { id: In(await comparisonsOfItem(reader, specimenId)) }),
    };
    const { rows, more } = await reader.page(tables.Comparison, where, {
      ...pageAsked(paging, 'number' as const),
    });
    const items: ComparisonInList[] = [];
    for (const noun of rows) items.push(await comparisonInList(reader, await standingOf(reader, noun)));
    return { items, next: nextPlace(rows.at(-1)?.number, more) };
  }

  async one(by: SignedInActor, key: string): Promise<ComparisonAnswer> {
    const reader = this.records.read(by.labId);
    return comparisonAnswer(reader, by, await standingOf(reader, await reader.named(tables.Comparison, key)));
  }

  async revision(labId: string, key: string, revision: string): Promise<ComparisonRevisionAnswer> {
    const reader = this.records.read(labId);
    const standing = await standingOf(reader, await reader.named(tables.Comparison, key));
    const index = standing.revisions.findIndex(({ version }) => `${version.content.revision}` === revision);
    const declared = (await declaredRevisions(reader, standing))[index];
    const version = standing.revisions[index]?.version;
    if (!declared || !version)
      throw new Refusal({
        code: 'request.not-found',
        detail: `There is no revision "${shortened(revision)}" of comparison ${key} in this lab.`,
      });
    return { ...declared, content: version.content, sha256: digestOfDeclared(version) };
  }

  declare(by: SignedInActor, asked: NewComparison): Promise<ComparisonAnswer> {
    return this.records.change(by, 'comparison declared', async (rows) => {
      const content = declaredBy(asked, by, rows.at);
      await refuseClaims(freeTextOf(content, ''));
      if (content.revision !== 1) throw otherNumber(content.revision, 1, '/revision');
      if (await rows.maybe(tables.Comparison, { key: content.comparison }))
        throw new Refusal({
          code: 'state.conflict',
          pointer: '/comparison',
          found: content.comparison,
          detail: `There is a comparison ${content.comparison} already. Look at what is there; nothing was changed.`,
          action: 'Declare it anew by its next revision, with the reason, or choose another name.',
        });
      const names = new Names(rows, '');
      const productId = await names.idOf(tables.Product, content.product, '/product');
      const columns = await columnsOf(names, content);
      names.refuse();
      const noun = await rows.add(tables.Comparison, { key: content.comparison, productId });
      await addCompared(rows, await rows.addVersion(tables.ComparisonRevision, noun.id, columns));
      return comparisonAnswer(rows, by, await standingOf(rows, noun));
    });
  }

  /** What was declared never changes: more characteristics, other items are a further revision, told with what was seen by then. */
  declareAnew(by: SignedInActor, key: string, { content: asked, reason }: Change<NewComparison>) {
    return this.#moved(
      by,
      { key, move: 'declare anew', action: 'comparison declared anew', reason },
      async (rows, now) => {
        const { noun, last } = now;
        const content = declaredBy(asked, by, rows.at, reason);
        await refuseClaims({ ...freeTextOf(content, '/content'), '/reason': reason });
        const next = last.content.revision + 1;
        if (content.revision !== next) throw otherNumber(content.revision, next, '/content/revision', last.content);
        const names = new Names(rows, '/content');
        if (content.comparison !== noun.key)
          names.note(
            'state.conflict',
            '/comparison',
            `the address is that of comparison ${noun.key}.`,
            content.comparison,
          );
        if (content.product !== last.content.product)
          names.note('state.conflict', '/product', `comparison ${noun.key} is of product ${last.content.product}.`);
        const columns = await columnsOf(names, content, noun.id);
        names.refuse();
        await addCompared(rows, await rows.addVersion(tables.ComparisonRevision, noun.id, columns));
      },
    );
  }

  approve(by: SignedInActor, key: string, { shown }: ComparisonApproval): Promise<ComparisonAnswer> {
    return this.#moved(by, { key, move: 'approve', action: 'comparison approved' }, async (rows, { last }) => {
      const thing = `comparison ${key} rev. ${last.content.revision}`;
      requireOther(by, 'approve a comparison', thing, [
        { act: 'declare a comparison', personId: last.personId, thing },
      ]);
      requireShown(last, shown, thing);
      await rows.add(tables.ComparisonDecision, {
        revisionId: last.id,
        decision: 'approved',
        shownSha256: shown,
        because: null,
      });
    });
  }

  decline(by: SignedInActor, key: string, { shown, because }: ComparisonDeclining): Promise<ComparisonAnswer> {
    const asked = { key, move: 'decline', action: 'comparison declined', reason: because } as const;
    return this.#moved(by, asked, async (rows, { last }) => {
      requireShown(last, shown, `comparison ${key} rev. ${last.content.revision}`);
      await rows.add(tables.ComparisonDecision, {
        revisionId: last.id,
        decision: 'declined',
        shownSha256: shown,
        because,
      });
    });
  }

  withdraw(by: SignedInActor, key: string, reason: string): Promise<ComparisonAnswer> {
    const asked = { key, move: 'withdraw', action: 'comparison withdrawn', reason } as const;
    return this.#moved(by, asked, async (rows, { noun }) => {
      await rows.add(tables.ComparisonWithdrawal, { comparisonId: noun.id, reason });
    });
  }

  /** Notes who agreed to an examination that ends an item, or was told of it. */
  consent(by: SignedInActor, key: string, asked: Omit<ConsentOrNotice, 'recordedBy'>): Promise<ComparisonAnswer> {
    return this.records.change(by, `${asked.kind} recorded`, async (rows) => {
      const standing = await heldComparison(rows, key);
      const content = completed(ConsentOrNotice, { ...asked, recordedBy: by.person });
      await rows.add(tables.ComparisonConsent, { comparisonId: standing.noun.id, content });
      return comparisonAnswer(rows, by, standing);
    });
  }

  /** Says why an item cannot be compared at all. */
  setAside(by: SignedInActor, key: string, { specimen, because }: { specimen: string; because: string }) {
    return this.records.change(by, 'item set aside', because, async (rows) => {
      await refuseClaims({ '/because': because });
      const standing = await heldComparison(rows, key);
      const names = new Names(rows, '');
      const item = await names.of(tables.Specimen, specimen, '/specimen');
      names.refuse();
      const revisionIds = standing.revisions.map(({ version }) => version.id);
      const specimenId = item?.id ?? '';
      const named = await rows.find(tables.ComparisonItem, { revisionId: In(revisionIds), specimenId });
      if (named.length === 0)
        throw new Refusal({
          code: 'body.not-found',
          pointer: '/specimen',
          found: specimen,
          detail: `/specimen: ${specimen} is no item of comparison ${key}.`,
        });
      if (await rows.maybe(tables.ComparisonSetAside, { comparisonId: standing.noun.id, specimenId }))
        throw new Refusal({
          code: 'state.conflict',
          pointer: '/specimen',
          found: specimen,
          detail: `Item ${specimen} is set aside already; nothing was changed.`,
        });
      await rows.add(tables.ComparisonSetAside, { comparisonId: standing.noun.id, specimenId, because });
      return comparisonAnswer(rows, by, standing);
    });
  }

  #moved(
    by: SignedInActor,
    asked: { key: string; move: MoveOf<typeof COMPARISON_STATES>; action: string; reason?: string },
    work: (rows: Rows, now: ComparisonStanding) => Promise<void>,
  ): Promise<ComparisonAnswer> {
    const { key, move, action, reason } = asked;
    return this.records.change(by, action, reason, async (rows) => {
      const now = await heldComparison(rows, key);
      requireMove(COMPARISON_STATES, move, now.state, `comparison ${key}`);
      await work(rows, now);
      return comparisonAnswer(rows, by, await standingOf(rows, now.noun));
    });
  }
}

/** What a person wrote in their own words; labels and codes are told as they were read. */
function freeTextOf({ title, question, notExamined }: Comparison, at: string) {
  return { [`${at}/title`]: title, [`${at}/question`]: question, [`${at}/notExamined`]: notExamined };
}

function declaredBy(asked: NewComparison, { person }: SignedInActor, at: Date, reason?: string): Comparison {
  const said = { declaredBy: person, declaredAt: at.toISOString(), ...(reason === undefined ? {} : { reason }) };
  return completed(Comparison, { ...asked, ...said }, reason === undefined ? undefined : 'content');
}

function requireShown(revision: tables.ComparisonRevision, shown: string, thing: string): void {
  const expected = digestOfDeclared(revision);
  if (shown === expected) return;
  throw new Refusal({
    code: 'version.stale',
    pointer: '/shown',
    found: shown,
    expected,
    detail: `/shown: what was shown has another digest than ${thing} as it is kept.`,
    action: 'Look at the comparison again, and send the sha256 of what you have read.',
  });
}

function otherNumber(found: number, expected: number, pointer: string, kept?: Comparison): Refusal {
  return new Refusal({
    code: 'state.conflict',
    pointer,
    found: `${found}`,
    expected: `${expected}`,
    detail:
      kept && found <= kept.revision
        ? `Revision ${found} of comparison ${kept.comparison} was declared and never changes; nothing is added to it.`
        : `The next revision has the number ${expected}.`,
    action: `Give what is declared now the number ${expected}; it stands beside what was declared before, and is told with whatever was seen of the items by then.`,
  });
}
