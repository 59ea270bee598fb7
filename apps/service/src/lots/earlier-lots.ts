import type { EarlierSample, Limit, Lot, Plan } from '@breakbook/lab';
import { type Reader, tables } from '@breakbook/records';
import { acceptance } from '../arithmetic.js';
import { judgementsOf } from '../evaluations/judgements-of.js';
import { lastEvaluations } from '../evaluations/last-evaluations.js';

/** A lot whose plan may pool. */
interface Pooling {
  productId: string;
  lot: Pick<Lot, 'lot' | 'madeTo'>;
  plan: Plan;
  limits: readonly Limit[];
}

/**
 * What earlier lots of the same product gave, where the plan pools them: of each the values that its last evaluation took
 * into its claim, the lot made last first, as many lots for each line as the plan names. Undefined where it pools none.
 */
export async function earlierLots(reader: Reader, of: Pooling): Promise<EarlierSample[] | undefined> {
  const { pooling } = of.plan.claim;
  if (pooling === 'none') return undefined;
  const { earlierSamplesOf } = await acceptance();
  const lots = await lotsBefore(reader, of);
  const evaluations = await lastEvaluations(
    reader,
    lots.map(({ id }) => id),
  );
  const found = new Map(of.plan.lines.map(({ line }): [string, EarlierSample[][]] => [line, []]));
  const open = () => of.plan.lines.filter(({ line }) => (found.get(line)?.length ?? 0) < pooling.lots);
  for (const { id, lot, madeTo } of lots) {
    const evaluation = evaluations.get(id);
    if (!evaluation) continue;
    if (open().length === 0) break;
    const evaluated = {
      lot,
      madeTo,
      plan: (await reader.one(tables.PlanRevision, evaluation.planRevisionId)).content,
      lines: evaluation.content.lines,
      judgements: await judgementsOf(reader, evaluation),
      evaluation: `${evaluation.number}`,
    };
    for (const line of open()) {
      const samples = earlierSamplesOf(line, of.limits, evaluated);
      if (samples.length > 0) found.get(line.line)?.push(samples);
    }
  }
  return [...found.values()].flat(2);
}

/** Lots of the product that were finished before this one, the last first. */
async function lotsBefore(reader: Reader, { productId, lot }: Pooling) {
  const lots = await reader.find(tables.Lot, { productId });
  const versions = await reader.latestOf(
    tables.LotVersion,
    lots.map(({ id }) => id),
  );
  return lots
    .flatMap(({ id, key }) => {
      const madeTo = versions.get(id)?.content.madeTo;
      return madeTo !== undefined && key !== lot.lot && madeTo < lot.madeTo ? [{ id, lot: key, madeTo }] : [];
    })
    .sort((a, b) => b.madeTo.localeCompare(a.madeTo) || b.lot.localeCompare(a.lot));
}
