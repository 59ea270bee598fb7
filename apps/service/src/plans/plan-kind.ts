import { type Limit, type Method, type Plan } from '@breakbook/lab';
import { type Reader, type Rows, tables } from '@breakbook/records';
import { In } from 'typeorm';
import { acceptance } from '../arithmetic.js';
import { kind } from '../records/kind.js';
import { type Names } from '../records/names.js';
import { revisionOf } from '../records/revisions.js';

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
  rowsWith: addLines,
  heldBy: usedByRuns,
});

/** What the lines of a plan name, and whether it fits. */
async function noteLineProblems(names: Names, plan: Plan): Promise<void> {
  const { reader } = names;
  const methods = await contentsOf<Method>(
    reader,
    tables.Method,
    tables.MethodRevision,
    plan.lines.map(({ method }) => method),
  );
  const limits = await contentsOf<Limit>(
    reader,
    tables.Limit,
    tables.LimitRevision,
    plan.lines.flatMap((line) => line.limits.map(({ limit }) => limit)),
  );
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

/** Every revision of the things of these names; a name that is not there gives none. */
async function contentsOf<C>(
  reader: Reader,
  nouns: typeof tables.Method | typeof tables.Limit,
  versions: typeof tables.MethodRevision | typeof tables.LimitRevision,
  keys: string[],
): Promise<C[]> {
  const known = await reader.find<tables.Method | tables.Limit>(nouns, { key: In([...new Set(keys)]) });
  const rows = await reader.find<tables.MethodRevision | tables.LimitRevision>(versions, {
    recordId: In(known.map(({ id }) => id)),
  });
  return rows.map(({ content }) => content as C);
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
