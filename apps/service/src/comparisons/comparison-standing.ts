import { canonicalJson, differencesBetween, sha256 } from '@breakbook/evidence';
import { COMPARISON_STATES, type StateOf } from '@breakbook/lab';
import { type Reader, type Rows, tables } from '@breakbook/records';
import { In } from 'typeorm';
import { peopleBehind } from '../records/read-kind.js';
import type { SignedInActor } from '../sign-in/signed-in.decorator.js';
import { hiddenFrom } from './blinds.js';
import type { ComparisonAnswer, ComparisonInList, ConclusionShown, DeclaredRevision } from './comparison-answers.js';
import { itemsOf } from './declared.js';
import { setAsideOf } from './set-aside-of.js';

export type ComparisonState = StateOf<typeof COMPARISON_STATES>;

/** A comparison with all its revisions and what was decided about each. */
export interface ComparisonStanding {
  noun: tables.Comparison;
  state: ComparisonState;
  /** The first one first. */
  revisions: { version: tables.ComparisonRevision; decision: tables.ComparisonDecision | undefined }[];
  last: tables.ComparisonRevision;
  /** By which items are examined. */
  inForce: tables.ComparisonRevision | undefined;
  withdrawal: tables.ComparisonWithdrawal | undefined;
  /** Locked conclusions; the last one holds. */
  conclusions: tables.ComparisonConclusion[];
}

export async function standingOf(reader: Reader, noun: tables.Comparison): Promise<ComparisonStanding> {
  const history = await reader.history(tables.ComparisonRevision, noun.id);
  const decisions = await reader.find(tables.ComparisonDecision, { revisionId: In(history.map(({ id }) => id)) });
  const withdrawal = await reader.maybe(tables.ComparisonWithdrawal, { comparisonId: noun.id });
  const revisions = history.map((version) => ({
    version,
    decision: decisions.find(({ revisionId }) => revisionId === version.id),
  }));
  const last = revisions.at(-1);
  if (!last) throw new Error(`Comparison ${noun.key} declares nothing.`);
  const inForce = revisions.findLast(({ decision }) => decision?.decision === 'approved')?.version;
  const conclusions = await reader.find(tables.ComparisonConclusion, { comparisonId: noun.id }, { position: 'asc' });
  const decided = last.decision === undefined ? 'declared' : inForce ? 'approved' : 'declined';
  const state = withdrawal ? 'withdrawn' : conclusions.length > 0 ? 'concluded' : decided;
  return { noun, state, revisions, last: last.version, inForce, withdrawal, conclusions };
}

/** The comparison of this name, kept as it stands until the change ends. */
export async function heldComparison(rows: Rows, key: string): Promise<ComparisonStanding> {
  const noun = await rows.named(tables.Comparison, key);
  await rows.lock(tables.Comparison, noun.id);
  return standingOf(rows, noun);
}

/** Of its content in canonical JSON: what whoever approves was shown. */
export function digestOfDeclared({ content }: tables.ComparisonRevision): string {
  return sha256(canonicalJson(content));
}

export async function comparisonInList(reader: Reader, standing: ComparisonStanding): Promise<ComparisonInList> {
  const { noun, state, last } = standing;
  const { content } = last;
  const [declared] = (await declaredRevisions(reader, standing)).slice(-1);
  if (!declared) throw new Error(`Comparison ${noun.key} declares nothing.`);
  return {
    comparison: noun.key,
    number: noun.number,
    product: content.product,
    title: content.title,
    state,
    ...(content.compared.what === 'two groups' ? {} : { items: content.compared.items.length }),
    ...declared,
  };
}

export async function comparisonAnswer(
  reader: Reader,
  by: SignedInActor,
  standing: ComparisonStanding,
): Promise<ComparisonAnswer> {
  const { noun, last, inForce, withdrawal, state } = standing;
  const consents = await reader.find(tables.ComparisonConsent, { comparisonId: noun.id });
  const people = await peopleBehind(reader, withdrawal ? [withdrawal] : []);
  const results = await reader.find(tables.ComparisonResult, { comparisonId: noun.id }, { number: 'asc' });
  const before = standing.revisions.at(-2)?.version.content;
  const hidden = await hiddenFrom(reader, by);
  const items = await itemsOf(reader, last.content);
  return {
    ...(await comparisonInList(reader, standing)),
    version: last.version,
    content: last.content,
    sha256: digestOfDeclared(last),
    ...(inForce ? { inForce: inForce.content.revision } : {}),
    revisions: await declaredRevisions(reader, standing),
    differences: before ? differencesBetween(before, last.content) : [],
    mayApprove: state === 'declared' ? await othersWhoDefine(reader, last.personId) : [],
    consents: consents.map(({ content }) => content),
    setAside: await setAsideOf(reader, noun.id),
    ...(results.length > 0 ? { result: results.at(-1)?.number } : {}),
    conclusions: await conclusionsShown(reader, standing),
    hiddenFromYou: items.some(({ key }) => hidden.has(key)),
    ...(withdrawal
      ? {
          withdrawn: {
            reason: withdrawal.reason,
            by: people.get(withdrawal.personId) ?? '',
            at: withdrawal.at.toISOString(),
          },
        }
      : {}),
  };
}

/** What was locked, the first one first. */
export async function conclusionsShown(
  reader: Reader,
  { conclusions }: ComparisonStanding,
): Promise<ConclusionShown[]> {
  const people = await peopleBehind(reader, conclusions);
  const results = await reader.find(tables.ComparisonResult, { id: In(conclusions.map(({ resultId }) => resultId)) });
  return conclusions.map((one) => {
    const result = results.find(({ id }) => id === one.resultId);
    const replaced = conclusions.find(({ id }) => id === one.replacesId);
    if (!result) throw new Error(`A conclusion rests on result ${one.resultId}, which is not there.`);
    return {
      conclusion: one.position,
      result: result.number,
      level: result.content.level,
      sentences: result.content.sentences,
      signature: {
        person: people.get(one.personId) ?? '',
        name: one.name,
        role: one.role,
        at: one.at.toISOString(),
        meaning: one.meaning,
        shown: one.shown,
      },
      ...(one.note === null ? {} : { note: one.note }),
      ...(replaced ? { replaces: replaced.position } : {}),
      ...(one.reason === null ? {} : { reason: one.reason }),
      inForce: one === conclusions.at(-1),
    };
  });
}

/** All revisions, each with what was seen by then and what another person said of it. */
export async function declaredRevisions(
  reader: Reader,
  { revisions }: ComparisonStanding,
): Promise<DeclaredRevision[]> {
  const people = await peopleBehind(
    reader,
    revisions.flatMap(({ decision }) => decision ?? []),
  );
  return revisions.map(({ version: { content, runsBefore, observationsBefore }, decision }) => ({
    revision: content.revision,
    declaredBy: content.declaredBy,
    declaredAt: content.declaredAt,
    ...(content.reason === undefined ? {} : { reason: content.reason }),
    before: { runs: runsBefore, observations: observationsBefore },
    declaredAfterResults: runsBefore + observationsBefore > 0,
    ...(decision
      ? {
          decision: {
            decision: decision.decision,
            by: people.get(decision.personId) ?? '',
            at: decision.at.toISOString(),
            ...(decision.because === null ? {} : { because: decision.because }),
          },
        }
      : {}),
  }));
}

async function othersWhoDefine(reader: Reader, declarerId: string): Promise<string[]> {
  const people = await reader.find(tables.Person, { kind: 'person' });
  const said = await reader.latestOf(
    tables.PersonVersion,
    people.map(({ id }) => id),
  );
  return people.flatMap(({ id, key }) => {
    const duties = said.get(id)?.content.duties ?? [];
    return id !== declarerId && duties.includes('define') && !duties.includes('administer') ? [key] : [];
  });
}
