import { Day, type DecidedRevision, definitionState, Instant, Key, LIMIT_STATES } from '@breakbook/lab';
import { type Reader, type Rows, type Table, tables, type Version } from '@breakbook/records';
import { type FindOptionsWhere, In } from 'typeorm';
import { z } from 'zod';
import { revisionIn } from './revisions.js';
import { dayInLab } from './today.js';

/** Which column of a proposal names a revision of a kind. */
export type ProposalColumn = 'methodRevisionId' | 'layoutRevisionId' | 'limitRevisionId' | 'planRevisionId';

/** How a revision stands: only proposed, or by whom it was approved and from when it holds. */
export const Standing = z.strictObject({
  state: z.enum(LIMIT_STATES.states),
  /** Left out where it is not approved. */
  inForceFrom: Day.optional(),
  /** The short number of its proposal; left out where it was kept without one, as a lot folder's revisions are. */
  proposal: z.number().int().min(1).optional(),
  proposedBy: Key.optional(),
  decidedBy: Key.optional(),
  decidedAt: Instant.optional(),
});
export type Standing = z.infer<typeof Standing>;

/** Where the revisions of a kind are kept, and which column of a proposal names them. */
export interface Definition<V extends Version> {
  versions: Table<V>;
  column: ProposalColumn;
  contentOf(version: V): object;
}

/** A revision with its proposal and what was decided about it, where there is either. */
export interface ProposedRevision<V extends Version = Version> {
  version: V;
  content: object;
  proposal: tables.Proposal | undefined;
  decision: tables.ProposalDecision | undefined;
}

/** Puts a new revision before another person. */
export async function propose(rows: Rows, column: ProposalColumn, revisionId: string): Promise<tables.Proposal> {
  const none = { methodRevisionId: null, layoutRevisionId: null, limitRevisionId: null, planRevisionId: null };
  return rows.add(tables.Proposal, { ...none, [column]: revisionId });
}

/** Every revision of these things, by the ids of the things, with what was decided about each. */
export async function proposedRevisions<V extends Version>(
  reader: Reader,
  { versions, column, contentOf }: Definition<V>,
  recordIds: readonly string[],
): Promise<Map<string, ProposedRevision<V>[]>> {
  const where = { recordId: In([...new Set(recordIds)]) } as FindOptionsWhere<V>;
  const all = await reader.find<V>(versions, where);
  const proposals = await reader.find(tables.Proposal, { [column]: In(all.map(({ id }) => id)) });
  const decisions = await reader.find(tables.ProposalDecision, { proposalId: In(proposals.map(({ id }) => id)) });
  const proposalOf = new Map(proposals.map((one) => [one[column], one]));
  const decisionOf = new Map(decisions.map((one) => [one.proposalId, one]));
  const byRecord = new Map<string, ProposedRevision<V>[]>();
  for (const version of all) {
    const proposal = proposalOf.get(version.id);
    const one = { version, content: contentOf(version), proposal, decision: proposal && decisionOf.get(proposal.id) };
    byRecord.set(version.recordId, [...(byRecord.get(version.recordId) ?? []), one]);
  }
  return byRecord;
}

/** Is it approved, or from a time or folder without proposals? */
export function isApproved({ proposal, decision }: ProposedRevision): boolean {
  return !proposal || decision?.decision === 'approved';
}

/** What was decided about a revision, as the table of states reads it. */
export function decidedAs({ version, content, proposal, decision }: ProposedRevision, keptOn: string): DecidedRevision {
  return {
    revision: revisionIn(content) ?? version.version,
    decision: proposal ? (decision?.decision ?? 'proposed') : 'approved',
    inForceFrom: decision?.inForceFrom ?? dayNamed(content) ?? keptOn,
  };
}

/** The day from which a content says that it holds: a layout names none. */
export function dayNamed(content: object): string | undefined {
  if ('inForceFrom' in content && typeof content.inForceFrom === 'string') return content.inForceFrom;
  if ('approvedOn' in content && typeof content.approvedOn === 'string') return content.approvedOn;
  return undefined;
}

/** How each of these revisions stands today, by their ids. */
export async function standings<V extends Version>(
  reader: Reader,
  kind: Definition<V>,
  recordIds: readonly string[],
): Promise<Map<string, Standing>> {
  const byRecord = await proposedRevisions(reader, kind, recordIds);
  const today = await dayInLab(reader, new Date());
  const people = await keysOf(
    reader,
    [...byRecord.values()].flat().flatMap(({ proposal, decision }) => [proposal, decision]),
  );
  const standing = new Map<string, Standing>();
  for (const revisions of byRecord.values()) {
    const decided: DecidedRevision[] = [];
    for (const one of revisions) decided.push(decidedAs(one, await dayInLab(reader, one.version.at)));
    for (const [index, one] of revisions.entries()) {
      const is = decided[index] as DecidedRevision;
      standing.set(one.version.id, {
        state: definitionState(is, decided, today),
        ...(is.decision === 'approved' ? { inForceFrom: is.inForceFrom } : {}),
        ...(one.proposal ? { proposal: one.proposal.number, proposedBy: people.get(one.proposal.personId) ?? '' } : {}),
        ...(one.decision
          ? { decidedBy: people.get(one.decision.personId) ?? '', decidedAt: one.decision.at.toISOString() }
          : {}),
      });
    }
  }
  return standing;
}

async function keysOf(
  reader: Reader,
  rows: readonly ({ personId: string } | undefined)[],
): Promise<Map<string, string>> {
  const ids = [...new Set(rows.flatMap((row) => row?.personId ?? []))];
  return new Map((await reader.find(tables.Person, { id: In(ids) })).map(({ id, key }) => [id, key]));
}
