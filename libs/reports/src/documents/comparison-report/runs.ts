import type { Block, Cell, Section } from '../../parts/blocks.js';
import { timeOf } from '../../words/dates.js';
import type { Printing } from '../../words/printing.js';
import { termIn } from '../../words/terms.js';
import { numberOf } from '../lot-test-report/head.js';
import type { ComparisonReportContent } from './content.js';
import { MESSAGES } from './messages/index.js';
import { specimenNamed } from './words.js';

/** Every run of items and reference, also those that give no value, and the raw files they left. */
export function runsSection(content: ComparisonReportContent, printing: Printing): Section {
  const { runs: words } = MESSAGES[printing.language];
  const { runs } = content.case;
  const valid = runs.filter(({ validity }) => validity === 'valid' || validity === 'valid with deviation').length;
  const deviations = content.conduct.flatMap(({ run, deviations }) => deviations.map((one) => `${run}: ${one}`));
  return {
    heading: words.heading,
    blocks: [
      { block: 'paragraph', text: words.counts(runs.length, valid) },
      {
        block: 'table',
        columns: [
          { title: words.run },
          { title: words.specimen },
          { title: words.method },
          { title: words.started },
          { title: words.validity },
        ],
        rows: runs.map((one) => runRow(one, content, printing)),
        empty: words.none,
      },
      filesTable(content, printing),
      {
        block: 'facts',
        columns: 1,
        facts: [
          { label: words.methods, value: methodsOf(content, printing) },
          { label: words.deviations, value: deviations.join('; ') || MESSAGES[printing.language].none },
        ],
      },
      { block: 'paragraph', tone: 'note', text: words.note },
    ],
  };
}

function runRow(
  {
    run,
    specimen,
    lot,
    rig,
    method,
    methodRevision,
    startedAt,
    validity,
  }: ComparisonReportContent['case']['runs'][number],
  content: ComparisonReportContent,
  printing: Printing,
): Cell[] {
  const messages = MESSAGES[printing.language];
  const conduct = content.conduct.find((one) => one.run === run);
  return [
    run,
    { text: specimenNamed(content, specimen), under: lot },
    {
      text: numberOf({ number: method, revision: methodRevision }, printing),
      under: rig ?? messages.runs.keyed,
    },
    { text: timeOf(startedAt, content.lab.zone), under: conduct?.operator ?? messages.notStated },
    {
      text: termIn(printing, validity),
      under: [conduct?.decidedBy, conduct?.reason].filter((one) => one !== undefined).join('; '),
    },
  ];
}

function filesTable(content: ComparisonReportContent, printing: Printing): Block {
  const { runs: words } = MESSAGES[printing.language];
  return {
    block: 'table',
    title: words.files,
    columns: [{ title: words.run }, { title: words.file }, { title: MESSAGES[printing.language].seen.digest }],
    rows: content.conduct.flatMap(({ run, files }) =>
      files.map(({ name, sha256 }) => [run, name, sha256 ?? words.unknown]),
    ),
    empty: words.noFiles,
  };
}

function methodsOf({ methods, case: { runs } }: ComparisonReportContent, printing: Printing): string {
  const used = methods.filter(({ method, revision }) =>
    runs.some((one) => one.method === method && one.methodRevision === revision),
  );
  const named = used.map(
    ({ method, revision, title, basis }) =>
      `${numberOf({ number: method, revision }, printing)}: ${title} (${basis.replace(/\.\s*$/, '')})`,
  );
  return named.join('; ') || MESSAGES[printing.language].none;
}
