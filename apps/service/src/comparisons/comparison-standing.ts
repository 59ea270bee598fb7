import { canonicalJson, differencesBetween, sha256 } from '@breakbook/evidence';
import { COMPARISON_STATES, type StateOf } from '@breakbook/lab';
import { type Reader, type Rows, tables } from '@breakbook/records';
import { In } from 'typeorm';
import { peopleBehind } from '../records/read-kind.js';
import { type SignedInActor } from '../sign-in/signed-in.decorator.js';
import { hiddenFrom } from './blinds.js';
import { type ComparisonAnswer, type ComparisonInList, type DeclaredRevision } from './comparison-answers.js';
import { itemsOf } from './declared.js';

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
  const decided = last.decision === undefined ? 'declared' : inForce ? 'approved' : 'declined';
  return { noun, state: withdrawal ? 'withdrawn' : decided, revisions, last: last.version, inForce, withdrawal };
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
  const asides = await reader.find(tables.ComparisonSetAside, { comparisonId: noun.id });
  const specimens = await reader.find(tables.Specimen, { id: In(asides.map(({ specimenId }) => specimenId)) });
  const people = await peopleBehind(reader, [...asides, ...(withdrawal ? [withdrawal] : [])]);
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
    setAside: asides.map(({ specimenId, because, personId, at }) => ({
      specimen: specimens.find(({ id }) => id === specimenId)?.key ?? '',
      because,
      by: people.get(personId) ?? '',
      at: at.toISOString(),
    })),
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
