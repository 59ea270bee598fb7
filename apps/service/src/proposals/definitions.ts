import { LAYOUT_STATES, LIMIT_STATES, METHOD_STATES, PLAN_STATES } from '@breakbook/lab';
import { type Noun, type Reader, type Table, tables, type Version } from '@breakbook/records';
import { type Definition, isApproved, proposedRevisions } from '../records/standing.js';

type Revision = Version & { content: Content };
type Content =
  | tables.MethodRevision['content']
  | tables.LayoutRevision['content']
  | tables.LimitRevision['content']
  | tables.PlanRevision['content'];

/** What one person proposes and another approves, by the word for it. */
interface Proposable extends Definition<Revision> {
  nouns: Table<Noun>;
  states: typeof LIMIT_STATES;
}

const contentOf = ({ content }: Revision) => content;

export const DEFINITIONS = {
  method: {
    nouns: tables.Method,
    versions: tables.MethodRevision,
    column: 'methodRevisionId',
    contentOf,
    states: METHOD_STATES,
  },
  layout: {
    nouns: tables.Layout,
    versions: tables.LayoutRevision,
    column: 'layoutRevisionId',
    contentOf,
    states: LAYOUT_STATES,
  },
  limit: {
    nouns: tables.Limit,
    versions: tables.LimitRevision,
    column: 'limitRevisionId',
    contentOf,
    states: LIMIT_STATES,
  },
  plan: { nouns: tables.Plan, versions: tables.PlanRevision, column: 'planRevisionId', contentOf, states: PLAN_STATES },
} as const satisfies Record<string, Proposable>;

export type DefinitionWord = keyof typeof DEFINITIONS;

/** Which of the four a proposal is about, and the id of its revision. */
export function proposed(proposal: tables.Proposal): { word: DefinitionWord; kind: Proposable; revisionId: string } {
  for (const word of Object.keys(DEFINITIONS) as DefinitionWord[]) {
    const kind: Proposable = DEFINITIONS[word];
    const revisionId = proposal[kind.column];
    if (revisionId !== null) return { word, kind, revisionId };
  }
  throw new Error(`Proposal ${proposal.number} is about nothing.`);
}

/** The approved revision before this one, if there is one. */
export async function approvedBefore(
  reader: Reader,
  kind: Proposable,
  { recordId, content }: Revision,
): Promise<Revision | undefined> {
  const all = (await proposedRevisions<Revision>(reader, kind, [recordId])).get(recordId) ?? [];
  return all
    .filter((one) => isApproved(one) && one.version.content.revision < content.revision)
    .map(({ version }) => version)
    .sort((a, b) => a.content.revision - b.content.revision)
    .at(-1);
}
