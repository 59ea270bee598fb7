import { isNotEvaluated } from '@breakbook/lab';
import { GIVEN_MARKS } from '../../content/given-by.js';
import type { Block, Cell, Section } from '../../parts/blocks.js';
import { timeOf } from '../../words/dates.js';
import type { Printing } from '../../words/printing.js';
import { termIn } from '../../words/terms.js';
import { measuredInWords, uncertaintyInWords } from '../../words/units.js';
import { numberOf } from '../lot-test-report/head.js';
import type { ResultOfSpecimen, RunOfSpecimen, SpecimenRecordContent } from './content.js';
import { MESSAGES } from './messages.js';

/** Every run made with the specimen, what valid ones gave, and the raw files they left. */
export function runsSection(content: SpecimenRecordContent, printing: Printing): Section {
  const { runs } = MESSAGES[printing.language];
  const results = content.runs.flatMap((run) => run.results.map((result) => resultRow(run, result, printing)));
  return {
    heading: runs.heading,
    blocks: [
      {
        block: 'table',
        columns: [
          { title: runs.run },
          { title: runs.method },
          { title: runs.made },
          { title: runs.found },
          { title: runs.validity },
        ],
        rows: content.runs.map((run) => runRow(content, run, printing)),
        empty: runs.none,
      },
      {
        block: 'table',
        title: runs.results,
        columns: [
          { title: runs.characteristic },
          { title: runs.result, align: 'number' },
          { title: runs.uncertainty, align: 'number' },
          { title: runs.why },
        ],
        rows: results,
        empty: runs.noResults,
      },
      {
        block: 'table',
        title: runs.files,
        columns: [{ title: runs.run }, { title: runs.file }, { title: runs.digest }],
        rows: content.runs.flatMap(({ run, files }) =>
          files.map(({ name, sha256 }) => [run, name, sha256 ?? runs.unknown]),
        ),
        empty: runs.noFiles,
      },
      { block: 'paragraph', tone: 'note', text: runs.note } satisfies Block,
    ],
  };
}

function runRow({ lab }: SpecimenRecordContent, run: RunOfSpecimen, printing: Printing): Cell[] {
  const { runs } = MESSAGES[printing.language];
  const { examination } = run;
  const seen = examination?.modes.map(({ code, place }) => (place === undefined ? code : `${code} (${place})`)) ?? [];
  return [
    { text: run.run, under: run.line },
    { text: numberOf({ number: run.method.method, revision: run.method.revision }, printing), under: run.method.title },
    {
      text: timeOf(run.startedAt, lab.zone),
      under: `${run.rig ?? runs.keyed}, ${run.operator}`,
    },
    examination
      ? {
          text: termIn(printing, examination.endReason),
          under: [
            ...seen,
            runs.part(examination.partSound),
            ...(examination.note === undefined ? [] : [examination.note]),
            examination.by,
          ].join('; '),
        }
      : runs.notExamined,
    {
      text: termIn(printing, run.validity),
      under: [run.decidedBy, run.validityReason].filter((one) => one !== undefined).join('; '),
    },
  ];
}

function resultRow(
  { run }: RunOfSpecimen,
  { title, reference, value, unit, uncertainty, because, mode, givenBy }: ResultOfSpecimen,
  printing: Printing,
): Cell[] {
  const { runs } = MESSAGES[printing.language];
  const name = {
    text: `${title}${reference ? ` (${runs.gauge[reference]})` : ''}${givenBy ? ` ${GIVEN_MARKS[givenBy]}` : ''}`,
    under: runs.ofRun(run),
  };
  if (isNotEvaluated(value)) return [name, runs.notEvaluated, '', printing.told(value.notEvaluated.because)];
  const [first, second] = measuredInWords(
    {
      value,
      unit,
      ...(uncertainty ? { uncertainty: uncertainty.expanded } : {}),
    },
    printing,
  );
  const [u, uSecond] = uncertainty
    ? uncertaintyInWords(uncertainty.expanded, unit, printing)
    : [runs.noUncertainty, ''];
  return [
    name,
    { text: first, under: second },
    { text: u, under: uncertainty ? `k = ${uncertainty.k}${uSecond === '' ? '' : `; ${uSecond}`}` : '' },
    { text: printing.told(because), under: mode === undefined || because.includes(mode) ? '' : printing.told(mode) },
  ];
}
