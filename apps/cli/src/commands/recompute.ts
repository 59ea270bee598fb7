import fs from 'node:fs';
import path from 'node:path';
import { evaluateLot } from '@breakbook/acceptance';
import { addedAndChanged, type Difference, differencesBetween } from '@breakbook/evidence';
import { EXIT, Refusal, readJson, SOFTWARE, shown, withoutSoftware } from '@breakbook/lab';
import { z } from 'zod';
import { openLotFolder } from '../lot-folder.js';
import { Progress, printable, table, wrapped } from '../terminal.js';
import { resultDocument } from './judge.js';

export interface RecomputeOptions {
  /** The result that was kept, or the folder of them for many lots; else those that `breakbook judge` writes. */
  against?: string;
}

/** As much of a kept result as is needed to lay it beside a new one; the rest is compared as it is. */
const KeptResult = z.object({
  result: z.looseObject({ software: z.string() }),
  runs: z.array(
    z.object({
      run: z.string(),
      reading: z.looseObject({
        software: z.string(),
        method: z.object({ method: z.string(), revision: z.number() }),
      }),
      judgement: z.unknown(),
    }),
  ),
  refused: z.array(z.looseObject({ run: z.string() })),
});
type KeptResult = z.infer<typeof KeptResult>;

export interface Compared {
  run: string;
  /** The method revision and the software that the kept one was read by. */
  since: string;
  outcome: 'identical' | 'different' | 'only added to' | 'not kept before' | 'not in the folder';
  differences: Difference[];
}

/** More of one run are counted, not listed. */
const MOST_LISTED = 10;

/** One lot folder recomputed. */
export interface RecomputedLot {
  lot: string;
  /** The kept result it was compared with. */
  file: string;
  runs: Compared[];
  /** What differs of the lot as a whole. */
  ofLot: Difference[];
  identical: boolean;
}

/** Does the folder still give what was kept of it? Every run is read and judged again and compared to the last bit. */
export function recomputeCommand(folder: string, { against }: RecomputeOptions): number {
  const progress = new Progress('reading runs again');
  const found = recomputed(
    folder,
    (lot) => against ?? path.join('out', lot, 'result.json'),
    (done, of) => progress.report(done, of),
  );
  progress.end();
  console.log(sheetOf(found));
  return found.identical ? EXIT.done : EXIT.doesNotMeet;
}

export function recomputed(
  folder: string,
  keptOf: (lot: string) => string,
  report?: (done: number, of: number) => void,
): RecomputedLot {
  const { bundle, filesOf } = openLotFolder(folder);
  const file = keptOf(bundle.lot.lot);
  const kept = keptResult(file);
  const evaluation = evaluateLot(bundle, filesOf, ({ done, of, share }) => report?.(done + share, of));
  const now = resultDocument(evaluation);
  const runs = comparedRuns(kept, now);
  const ofLot = differencesBetween(
    { result: withoutSoftware(kept.result), refused: kept.refused },
    { result: withoutSoftware(now.result), refused: now.refused },
  );
  const identical = ofLot.length === 0 && runs.every(({ outcome }) => outcome === 'identical');
  return { lot: bundle.lot.lot, file, runs, ofLot, identical };
}

function keptResult(file: string): KeptResult {
  if (!fs.existsSync(file))
    throw new Refusal({
      code: 'file.missing',
      file,
      detail: `There is no kept result ${shown(file)} to compare with.`,
      expected: 'a result.json that breakbook judge wrote',
      action: 'Give the file by --against, or judge the folder first.',
    });
  const read = KeptResult.safeParse(readJson(fs.readFileSync(file), file));
  if (read.success) return read.data;
  const [issue] = read.error.issues;
  throw new Refusal({
    code: 'body.format',
    file,
    pointer: `/${(issue?.path ?? []).join('/')}`,
    detail: `${shown(file)}: /${(issue?.path ?? []).join('/')}: this is no result that breakbook judge wrote.`,
    expected: 'a result.json that breakbook judge wrote',
  });
}

function comparedRuns(kept: KeptResult, now: ReturnType<typeof resultDocument>): Compared[] {
  const before = new Map(kept.runs.map((one) => [one.run, one]));
  const after = new Map(now.runs.map((one) => [one.run, one]));
  return [...new Set([...before.keys(), ...after.keys()])].map((run): Compared => {
    const [then, again] = [before.get(run), after.get(run)];
    if (!then) return { run, since: '', outcome: 'not kept before', differences: [] };
    const { method, software } = then.reading;
    const since = `${method.method} rev. ${method.revision}, ${software}`;
    if (!again) return { run, since, outcome: 'not in the folder', differences: [] };
    const differences = differencesBetween(...([then, again].map(numbersOf) as [unknown, unknown]));
    return { run, since, outcome: outcomeOf(differences), differences };
  });
}

function outcomeOf(differences: readonly Difference[]): 'identical' | 'different' | 'only added to' {
  if (differences.length === 0) return 'identical';
  return addedAndChanged(differences).changed.length === 0 ? 'only added to' : 'different';
}

/** What a run came to; by which version of the software is told beside it and is no difference. */
function numbersOf({ reading, judgement }: { reading: object; judgement?: unknown }) {
  return { reading: withoutSoftware(reading), judgement };
}

function sheetOf({ lot, file, runs, ofLot }: RecomputedLot): string {
  const identical = runs.filter(({ outcome }) => outcome === 'identical').length;
  const parts = [
    `Lot ${lot} · compared with ${printable(file)} · now by ${SOFTWARE}`,
    `${identical} of ${runs.length} runs identical to the last bit; the lot's result is ${outcomeOf(ofLot)}.`,
    table(
      [{ head: 'run', side: 'right' }, { head: 'since' }, { head: 'outcome' }, { head: 'differences', side: 'right' }],
      runs.map(({ run, since, outcome, differences }) => [run, since, outcome, differences.length || ''].map(String)),
    ),
    ...runs.flatMap(({ run, since, differences }) =>
      differences.length === 0 ? [] : [listed(`Run ${run}, since ${since}:`, differences)],
    ),
    ...(ofLot.length === 0 ? [] : [listed('The lot as a whole:', ofLot)]),
  ];
  return parts.join('\n\n');
}

function listed(head: string, differences: Difference[]): string {
  const { added, changed } = addedAndChanged(differences);
  const lines = changed
    .slice(0, MOST_LISTED)
    .map(({ place, kept, now }) =>
      wrapped(printable(`${place}: was ${kept ?? 'not there'}, is ${now ?? 'not there'}`), 96, '  '),
    );
  const more = changed.length - lines.length;
  return [
    head,
    ...lines,
    ...(more > 0 ? [`  and ${more} more`] : []),
    ...(added.length > 0 ? [wrapped(printable(addedInWords(added, changed.length)), 96, '  ')] : []),
  ].join('\n');
}

/** What is worked out now and was not kept, such as steps that judging did not tell then. */
export function addedInWords(added: readonly { name: string; places: number }[], changed: number): string {
  const names = added.map(({ name, places }) => `${name} (${places})`).join(', ');
  return `worked out now and not kept then: ${names}.${changed === 0 ? ' Nothing that was kept is otherwise.' : ''}`;
}
