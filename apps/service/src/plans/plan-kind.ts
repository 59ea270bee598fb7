import { type Limit, limitName, type Method, type Plan } from '@breakbook/lab';
import { type Reader, type Rows, tables } from '@breakbook/records';
import { In } from 'typeorm';
import { acceptance } from '../arithmetic.js';
import { kind } from '../records/kind.js';
import type { Names } from '../records/names.js';
import { revisionOf } from '../records/revisions.js';
import { isApproved, proposedRevisions } from '../records/standing.js';

export const PLAN = kind<Plan, tables.Plan, tables.PlanRevision>({
  word: 'plan',
  keyField: 'plan',
  nouns: tables.Plan,
  versions: tables.PlanRevision,
  anchor: async (content, names) => ({ productId: await names.idOf(tables.Product, content.product, '/product') }),
  async columns(content, names) {
    await names.person(content.approvedBy, '/approvedBy');
    await noteLineProblems(names, content);
    return { content };
  },
  contentOf: ({ content }) => content,
  proposedAs: 'planRevisionId',
  rowsWith: addLines,
  heldBy: usedByRuns,
});

/** What keeps a plan from being approved: a method or limit that is not, or a limit that is not the one in force. */
export async function noteUnapproved(names: Names, plan: Plan): Promise<void> {
  const { reader } = names;
  const methods = await revisionsOf<Method>(
    reader,
    METHODS,
    plan.lines.map(({ method }) => method),
  );
  const limits = await revisionsOf<Limit>(
    reader,
    LIMITS,
    plan.lines.flatMap((line) => line.limits.map(({ limit }) => limit)),
  );
  for (const [index, line] of plan.lines.entries()) {
    const method = methods.find(
      ({ content }) => content.method === line.method && content.revision === line.methodRevision,
    );
    if (method && !method.approved)
      names.note(
        'state.conflict',
        `/lines/${index}/methodRevision`,
        notApproved(`method ${line.method} rev. ${line.methodRevision}`),
      );
    for (const [n, ref] of line.limits.entries()) {
      const limit = limits.find(({ content }) => content.limit === ref.limit && content.revision === ref.revision);
      if (limit && !limit.approved)
        names.note('state.conflict', `/lines/${index}/limits/${n}`, notApproved(`limit ${limitName(ref)}`));
    }
  }
  names.refuse();
  await noteLineProblems(names, plan);
}

const notApproved = (what: string) =>
  `${what} is not approved. Have it approved first; a plan rests on nothing that is only proposed.`;

/** Every revision of the methods and limits that a plan names. */
export async function namedByPlan(reader: Reader, { lines }: Plan) {
  const methods = await revisionsOf<Method>(
    reader,
    METHODS,
    lines.map(({ method }) => method),
  );
  const limits = await revisionsOf<Limit>(
    reader,
    LIMITS,
    lines.flatMap((line) => line.limits.map(({ limit }) => limit)),
  );
  return { methods: methods.map(({ content }) => content), limits };
}

/** What the lines of a plan name, and whether it fits. */
async function noteLineProblems(names: Names, plan: Plan): Promise<void> {
  const { methods, limits: known } = await namedByPlan(names.reader, plan);
  const named = new Set(plan.lines.flatMap((line) => line.limits.map(limitName)));
  // A later revision that is only proposed takes no other's place.
  const limits = known.flatMap(({ content, approved }) => (approved || named.has(limitName(content)) ? [content] : []));
  const records = {
    limits,
    methodOf: (ref: { method: string; methodRevision: number }) =>
      methods.find((one) => one.method === ref.method && one.revision === ref.methodRevision),
    limitOf: (ref: { limit: string; revision: number }) =>
      limits.find((one) => one.limit === ref.limit && one.revision === ref.revision),
    placeOf: (_: Limit, named: string) => named,
  };
  const { planLineProblems } = await acceptance();
  const seen = new Set<string>();
  for (const [index, line] of plan.lines.entries()) {
    const at = `/lines/${index}`;
    if (seen.has(line.line))
      names.note('meta.duplicate', `${at}/line`, 'stands twice. Name each line once.', line.line);
    seen.add(line.line);
    names.take(planLineProblems(plan, line, names.place(at), records));
  }
}

const METHODS = {
  nouns: tables.Method,
  versions: tables.MethodRevision,
  column: 'methodRevisionId',
  contentOf: ({ content }: { content: object }) => content,
} as const;
const LIMITS = {
  nouns: tables.Limit,
  versions: tables.LimitRevision,
  column: 'limitRevisionId',
  contentOf: ({ content }: { content: object }) => content,
} as const;

/** Every revision of the things of these names, and whether it is approved; a name that is not there gives none. */
async function revisionsOf<C>(
  reader: Reader,
  kind: typeof METHODS | typeof LIMITS,
  keys: string[],
): Promise<{ content: C; approved: boolean }[]> {
  const known = await reader.find<tables.Method | tables.Limit>(kind.nouns, { key: In([...new Set(keys)]) });
  const found = await proposedRevisions<tables.MethodRevision | tables.LimitRevision>(
    reader,
    kind,
    known.map(({ id }) => id),
  );
  return [...found.values()].flat().map((one) => ({ content: one.content as C, approved: isApproved(one) }));
}

/** The rows that answer "which plans use this limit, or this method?" in one query. */
async function addLines(rows: Rows, { id, content }: tables.PlanRevision): Promise<void> {
  for (const line of content.lines) {
    const method = await rows.named(tables.Method, line.method);
    const methodRevision = await revisionOf(rows, tables.MethodRevision, method.id, line.methodRevision);
    const added = await rows.add(tables.PlanLine, {
      planRevisionId: id,
      key: line.line,
      methodRevisionId: methodRevision.id,
    });
    for (const ref of line.limits) {
      const limit = await rows.named(tables.Limit, ref.limit);
      const limitRevision = await revisionOf(rows, tables.LimitRevision, limit.id, ref.revision);
      await rows.add(tables.PlanLineLimit, { planLineId: added.id, limitRevisionId: limitRevision.id });
    }
  }
}

/** A plan revision is frozen once a run was made under it: what is claimed is declared before the test. */
export async function usedByRuns(reader: Reader, { id }: tables.PlanRevision): Promise<string | undefined> {
  const lines = await reader.find(tables.PlanLine, { planRevisionId: id });
  const [first] = await reader.find(tables.RunVersion, { planLineId: In(lines.map((line) => line.id)) });
  if (!first) return undefined;
  const run = await reader.one(tables.Run, first.recordId);
  return `it is frozen, because run ${run.key} was made under it`;
}
