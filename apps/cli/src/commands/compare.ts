import fs from 'node:fs';
import path from 'node:path';
import { caseOfLots, compareCase, evaluateLot, limitsBeside } from '@breakbook/acceptance';
import { canonicalJson } from '@breakbook/evidence';
import {
  type ComparisonCase,
  type ComparisonDocument,
  type ComparisonLevel,
  type ComparisonResult,
  EXIT,
  itemsOf,
  type LotBundle,
  type PrintChoice,
  printKept,
  Refusal,
} from '@breakbook/lab';
import {
  type ComparisonReportContent,
  comparisonReportContent,
  composeDocument,
  methodOfComparison,
} from '@breakbook/reports';
import { type OpenComparison, openComparison } from '../comparison-folder.js';
import { comparisonSheet } from '../comparison-sheet.js';
import { type PrintOptions, printFrom } from '../print-options.js';
import { Progress } from '../terminal.js';

export interface CompareOptions extends PrintOptions {
  json?: boolean;
  /** Where the comparison report goes. */
  report?: string;
}

/** How the command ends that came to this level. */
const STATUS: Record<ComparisonLevel, number> = {
  A: EXIT.doesNotMeet,
  B: EXIT.doesNotMeet,
  C: EXIT.undecided,
  D: EXIT.done,
  E: EXIT.undecided,
};

/** A comparison folder in; how well things agree on the terminal, sentence by sentence. No server, no database. */
export async function compareCommand(place: string, { json, report, ...printed }: CompareOptions): Promise<number> {
  const print = printFrom(printed);
  const opened = openComparison(place);
  if (report !== undefined) requireLocked(opened.document);
  const given = caseOf(opened);
  const result = compareCase(given);
  console.log(json ? canonicalJson(result) : comparisonSheet(given, result, lotAskedAbout(given, opened).lab.zone));
  if (report !== undefined) {
    fs.mkdirSync(path.dirname(path.resolve(report)), { recursive: true });
    fs.writeFileSync(report, await composeDocument('comparison report', contentOf(given, result, opened, print)));
    if (!json) console.log(`\nReport  ${report}`);
  }
  return STATUS[result.level];
}

/** Every lot of the folder read and judged, with the comparison that rests on them. */
function caseOf({ document, lots }: OpenComparison): ComparisonCase {
  const progress = new Progress('reading runs');
  const runs = lots.reduce((sum, { bundle }) => sum + bundle.runs.length, 0);
  let before = 0;
  const evaluated = lots.map(({ bundle, filesOf }) => {
    const evaluation = evaluateLot(bundle, filesOf, ({ done, share }) => progress.report(before + done + share, runs));
    before += bundle.runs.length;
    return { bundle, evaluation };
  });
  progress.end();
  return caseOfLots(document, evaluated);
}

/** Whoever is blinded would read in a report which item is which. */
function requireLocked({ comparison, locked }: ComparisonDocument): void {
  if (!comparison.blind || locked) return;
  throw new Refusal({
    code: 'state.conflict',
    pointer: '/locked',
    detail: `/locked: the conclusions of comparison ${comparison.comparison} are not locked, and ${comparison.blind.blinded.join(', ')} would read in a report which item is which.`,
    action: 'Compare without --report; write down when conclusions were locked, and by whom, before a report is made.',
  });
}

/** The first lot of the items: it says who asked, what the product is and where the lab. */
function lotAskedAbout(given: ComparisonCase, { lots }: OpenComparison): LotBundle {
  const items = new Set(itemsOf(given));
  const bundles = lots.map(({ bundle }) => bundle);
  const asked = bundles.find(({ specimens }) => specimens.some(({ specimen }) => items.has(specimen))) ?? bundles[0];
  if (!asked) throw new Error('A comparison without lots was not refused.');
  return asked;
}

function contentOf(
  given: ComparisonCase,
  result: ComparisonResult,
  opened: OpenComparison,
  print: PrintChoice,
): ComparisonReportContent {
  const { comparison, locked } = given;
  // Methods and people come from all lots.
  const bundles = opened.lots.map(({ bundle }) => bundle);
  const asked = lotAskedAbout(given, opened);
  const items = new Set(itemsOf(given));
  const people = distinct(
    bundles.flatMap((one) => one.people),
    ({ person }) => person,
  );
  const nameOf = (key: string) => people.find(({ person }) => person === key)?.name ?? key;
  const named = new Set(
    comparison.characteristics.flatMap(({ source }) =>
      source.from === 'runs' ? [`${source.method} ${source.methodRevision}`] : [],
    ),
  );
  const methodName = ({ method, revision }: { method: string; revision: number }) => `${method} ${revision}`;
  return comparisonReportContent({
    case: given,
    result,
    lab: asked.lab,
    customer: asked.customer,
    product: asked.product,
    people,
    items: bundles.flatMap(({ specimens }) => specimens.filter(({ specimen }) => items.has(specimen))),
    methods: distinct(
      bundles.flatMap((one) => one.methods),
      methodName,
    )
      .filter((one) => named.has(methodName(one)))
      .map(methodOfComparison),
    limits: limitsBeside(
      comparison,
      bundles.flatMap(({ limits, specimens }) =>
        specimens.some(({ specimen }) => given.specimens.some((one) => one.specimen === specimen)) ? limits : [],
      ),
    ),
    conduct: bundles.flatMap(({ runs }) =>
      runs.map(({ run, operator, validity, deviations, files }) => ({
        run,
        operator: nameOf(operator),
        ...(validity ? { decidedBy: nameOf(validity.person) } : {}),
        ...(validity?.reason ? { reason: validity.reason } : {}),
        deviations,
        files,
      })),
    ),
    document: {
      number: `${comparison.comparison}-draft`,
      revision: 1,
      issuedAt: new Date().toISOString(),
      signatures: [],
    },
    locked: locked && { at: locked.at, by: nameOf(locked.by) },
    print: printKept(print),
  });
}

function distinct<T>(all: readonly T[], keyOf: (one: T) => string): T[] {
  return [...new Map(all.map((one) => [keyOf(one), one])).values()];
}
