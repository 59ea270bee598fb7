import type { ComparisonCase } from '@breakbook/lab';
import { listed } from '../words/index.js';
import { featuresSeen } from './features.js';
import type { Member } from './gathered-values.js';

/** Facts that a reader must know beside what is concluded. */
export function notesOf(
  given: ComparisonCase,
  { reference, items }: { reference: readonly Member[]; items: readonly Member[] },
): string[] {
  const { comparison } = given;
  const ofItems = given.runs
    .filter(({ specimen }) => items.some((item) => item.specimen === specimen))
    .map(({ startedAt }) => startedAt)
    .sort((a, b) => Date.parse(a) - Date.parse(b));
  const [first] = ofItems;
  const before = (instant: string) => first !== undefined && Date.parse(first) < Date.parse(instant);
  const notes: string[] = [];
  if (before(comparison.declaredAt))
    notes.push(
      `Revision ${comparison.revision} was declared at ${comparison.declaredAt}, after the first run of an item (${first}): what is compared could have been chosen by what was seen.`,
    );
  if (given.reference && comparison.compared.what !== 'two groups' && before(given.reference.frozenAt))
    notes.push(
      `The reference was frozen at ${given.reference.frozenAt}, after the first run of an item (${first}): its units could have been chosen by what was seen.`,
    );
  const both = items
    .filter(({ specimen }) => reference.some((unit) => unit.specimen === specimen))
    .map(({ specimen }) => specimen);
  if (both.length > 0) notes.push(`On both sides stand ${listed(both)}: they are compared with themselves.`);
  const lots = new Set(items.map(({ lot }) => lot));
  if (comparison.compared.what !== 'two groups' && reference.some(({ lot }) => lots.has(lot)))
    notes.push('Items and reference are recorded under one lot: an item then is no unit of a lot of its own.');
  notes.push(...rigsThatDiffer(given, reference, items));
  const changed = firstChange(given, items);
  if (comparison.mayGoToCourt && changed) {
    const told = (given.consents ?? []).some(({ at }) => Date.parse(at) <= Date.parse(changed.at));
    if (!told)
      notes.push(
        `What is left may go to court, and item ${changed.specimen} was changed at ${changed.at} (${changed.by}) without a consent or notice recorded before.`,
      );
  }
  const { onlyMeasured } = featuresSeen(given);
  for (const { title } of onlyMeasured)
    notes.push(`${title} was measured, and no characteristic is declared of it: it counts for nothing here.`);
  if (comparison.correction === 'none' && comparison.characteristics.length > 1)
    notes.push('No correction was declared: each characteristic by itself keeps the confidence, all together do not.');
  return notes;
}

/** What first changed an item, by its custody, by what was looked at, or by a run. */
function firstChange(
  { comparison, custody, observations, runs }: ComparisonCase,
  items: readonly Member[],
): { specimen: string; at: string; by: string } | undefined {
  const changing = new Map(
    comparison.features.flatMap(({ feature, title, changesItem }) => (changesItem ? [[feature, title]] : [])),
  );
  const changes = [
    ...custody.flatMap(({ specimen, at, step, changesItem }) => (changesItem ? [{ specimen, at, by: step }] : [])),
    ...observations.flatMap(({ specimen, at, feature }) =>
      changing.has(feature) ? [{ specimen, at, by: changing.get(feature) ?? feature }] : [],
    ),
    ...runs.map(({ specimen, startedAt, run }) => ({ specimen, at: startedAt, by: `run ${run}` })),
  ];
  return changes
    .filter(({ specimen }) => items.some((item) => item.specimen === specimen))
    .sort((a, b) => Date.parse(a.at) - Date.parse(b.at))[0];
}

/** Rigs read differently: without an uncertainty of that difference declared, it stands in the findings. */
function rigsThatDiffer(
  { comparison, runs }: ComparisonCase,
  reference: readonly Member[],
  items: readonly Member[],
): string[] {
  return comparison.characteristics.flatMap(({ source, title, betweenRigs }) => {
    if (source.from !== 'runs' || betweenRigs) return [];
    const rigsOf = (members: readonly Member[]) => [
      ...new Set(
        runs
          .filter(
            ({ method, specimen }) => method === source.method && members.some((one) => one.specimen === specimen),
          )
          .flatMap(({ rig }) => (rig === undefined ? [] : [rig])),
      ),
    ];
    const [ofReference, ofItems] = [rigsOf(reference), rigsOf(items)];
    const others = ofItems.filter((rig) => !ofReference.includes(rig));
    return others.length === 0 || ofReference.length === 0
      ? []
      : [
          `${title}: items were tested on ${listed(others)} and the reference on ${listed(ofReference)}, and no uncertainty between rigs is declared: a difference between the rigs would count as one of the items.`,
        ];
  });
}
