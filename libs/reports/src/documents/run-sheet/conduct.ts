import { capital } from '@breakbook/acceptance';
import { FIGURE_WIDTH, tracePlot } from '@breakbook/figures';
import type { Check, Run } from '@breakbook/lab';
import { printFixed } from '@breakbook/units';
import { personOf } from '../../content/judged-lot.js';
import { channelNamed, tracePlotOf } from '../../figures/trace-input.js';
import type { Block, Cell, Fact, Section } from '../../parts/blocks.js';
import { timeOf } from '../../words/dates.js';
import type { Printing } from '../../words/printing.js';
import { termIn } from '../../words/terms.js';
import { declaredInWords } from '../../words/units.js';
import type { Room } from '../one-page.js';
import type { RunSheetContent } from './content.js';
import { MESSAGES } from './messages.js';
import { runOf } from './run-of.js';

/** How the run went, what was found of the specimen, what the checks of its record say, and who stands behind it. */
export function conductSection(content: RunSheetContent, printing: Printing, room: Room): Section {
  const { conduct } = MESSAGES[printing.language];
  const failed = (content.reading?.checks ?? []).filter(({ outcome }) => outcome !== 'pass');
  return {
    heading: conduct.heading,
    blocks: [
      recordBlock(content, factsOf(content, failed.length, printing), room, printing),
      ...(failed.length === 0 ? [] : [checksTable(failed, printing)]),
      ...(content.refused.length === 0
        ? []
        : [
            {
              block: 'table',
              title: conduct.refusedTitle,
              columns: [{ title: conduct.wrong }],
              rows: content.refused.map(({ detail, action }) => [
                { text: printing.told(detail), under: printing.told(action ?? '') },
              ]),
              empty: conduct.none,
            } satisfies Block,
          ]),
      ...equipmentBlocks(content, printing),
    ],
  };
}

function factsOf(content: RunSheetContent, failed: number, printing: Printing): Fact[] {
  const { conduct, people, shown } = MESSAGES[printing.language];
  const run = runOf(content);
  const { bundle, identity } = content;
  const { zone } = bundle.lab;
  const authorised = identity.signatures.find(({ meaning }) => meaning === 'authorised');
  return [
    { label: conduct.examined, value: examinationOf(content, run, printing) },
    { label: conduct.deviations, value: run.deviations.length === 0 ? conduct.none : run.deviations.join(' ') },
    { label: conduct.checks, value: conduct.checked(content.reading?.checks.length ?? 0, failed) },
    {
      label: conduct.photos,
      value: run.photos?.length ? conduct.photosOf(run.photos.length) : conduct.noPhotos,
    },
    { label: people.tested, value: personOf(bundle, run.operator) },
    {
      label: people.validity,
      value: run.validity
        ? `${personOf(bundle, run.validity.person)}, ${timeOf(run.validity.at, zone)}`
        : people.notDecided,
    },
    {
      label: people.authorised,
      value: authorised ? `${authorised.name}, ${authorised.role}, ${timeOf(authorised.at, zone)}` : people.notSigned,
    },
    {
      label: conduct.claim,
      value: content.entry ? shown.claim(content.entry.inClaim, printing.told(content.entry.because)) : conduct.none,
    },
    {
      label: conduct.readiness,
      value: run.readiness
        ? `${personOf(bundle, run.readiness.confirmedBy)}, ${timeOf(run.readiness.at, zone)}`
        : conduct.notConfirmed,
    },
  ];
}

/** The record with its marked moments, beside what is said of the run. */
function recordBlock(content: RunSheetContent, facts: Fact[], { panel }: Room, printing: Printing): Block {
  const { bundle, trace, reading } = content;
  const [method] = bundle.methods;
  if (!trace || !reading || !method) {
    const { noRecord, record } = MESSAGES[printing.language].shown;
    return { block: 'facts', columns: 3, facts: [{ label: record, value: noRecord }, ...facts] };
  }
  const plot = tracePlotOf({ ...trace, run: runOf(content), method, reading }, printing);
  const scene = tracePlot({ ...plot, language: printing.figures, panelHeight: panel, width: FIGURE_WIDTH.narrow });
  return { block: 'figure beside', scene, facts, columns: 2 };
}

function examinationOf({ bundle }: RunSheetContent, { examination }: Run, printing: Printing): string {
  const { conduct } = MESSAGES[printing.language];
  if (!examination) return conduct.notExamined;
  const { endReason, modes, partSound, note, withoutPhotos, person, at } = examination;
  const [method] = bundle.methods;
  const seen = modes.map(({ code, place }) => {
    const meaning = method?.failureModes.find((one) => one.code === code)?.meaning;
    return `${code}${meaning === undefined ? '' : ` (${meaning})`}${place === undefined ? '' : `, ${place}`}`;
  });
  return [
    termIn(printing, endReason),
    ...seen,
    conduct.part(partSound),
    ...(note === undefined ? [] : [note]),
    ...(withoutPhotos === undefined ? [] : [withoutPhotos]),
    `${personOf(bundle, person)}, ${timeOf(at, bundle.lab.zone)}`,
  ].join('; ');
}

function checksTable(failed: readonly Check[], printing: Printing): Block {
  const { conduct } = MESSAGES[printing.language];
  return {
    block: 'table',
    columns: [{ title: conduct.question }, { title: conduct.outcomeTitle }, { title: conduct.finding }],
    rows: failed.map(({ question, outcome, finding, action }) => [
      printing.told(question),
      conduct.outcome[outcome],
      { text: printing.told(finding), under: printing.told(action ?? '') },
    ]),
    empty: conduct.none,
  };
}

/** Sensors with their calibrations, what a person read, and the raw files by their digests. */
function equipmentBlocks(content: RunSheetContent, printing: Printing): Block[] {
  const { equipment } = MESSAGES[printing.language];
  const run = runOf(content);
  const read = run.measurements.map(({ of, instrument }) => `${channelNamed(of, printing.named)} (${instrument})`);
  const files = content.reading
    ? content.reading.files.map(({ name, bytes, sha256 }) => equipment.file(name, printFixed(bytes, 0), sha256))
    : run.files.map(({ name, sha256 }) => equipment.file(name, equipment.unknown, sha256 ?? equipment.unknown));
  return [
    {
      block: 'table',
      columns: [
        { title: equipment.channel },
        { title: equipment.sensor },
        { title: equipment.calibration },
        { title: equipment.dates },
        { title: equipment.uncertainty },
        { title: equipment.valid },
      ],
      rows: sensorRows(content, printing),
      empty: equipment.none,
    },
    ...(read.length === 0 ? [] : [{ block: 'paragraph', text: equipment.keyed(read.join('; ')) } as const]),
    { block: 'list', items: files.length === 0 ? [equipment.noFiles] : files },
  ];
}

function sensorRows({ bundle, reading }: RunSheetContent, printing: Printing): Cell[][] {
  const { equipment } = MESSAGES[printing.language];
  return (reading?.calibrations ?? []).map(({ channel, sensor, calibration, validOnDay }) => {
    const event = bundle.calibrations.find((one) => one.calibration === calibration);
    const instrument = bundle.sensors.find((one) => one.sensor === sensor);
    return [
      capital(channelNamed(channel, printing.named)),
      {
        text: `${sensor}, ${equipment.serial(instrument?.serial ?? equipment.unknown)}`,
        under: instrument?.description ?? '',
      },
      { text: event?.certificate ?? calibration, under: event ? `${event.by}; ${event.traceableTo}` : '' },
      event ? `${event.date}, ${event.due}` : equipment.unknown,
      event
        ? `${declaredInWords(event.expandedUncertainty, event.unit, printing)} (k = ${printing.number(`${event.k}`)})`
        : equipment.unknown,
      validOnDay ? equipment.yes : { text: equipment.no, strong: true },
    ];
  });
}
