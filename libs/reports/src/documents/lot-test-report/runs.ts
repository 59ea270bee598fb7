import { type Method, photosAskedOf, photosInWords, photosMissing, type Run } from '@breakbook/lab';
import { linesOf, personOf } from '../../content/judged-lot.js';
import type { LotReportContent } from '../../content/lot-report-content.js';
import type { Block, Section, Table } from '../../parts/blocks.js';
import { timeOf } from '../../words/dates.js';
import { type Printing, printingOf } from '../../words/printing.js';

/** Every run of the set, also those that make no claim, each with the reason. */
export function runsSection(content: LotReportContent): Section {
  const printing = printingOf(content);
  const { say } = printing;
  return {
    heading: say('Which runs were made, and which make the claim?'),
    blocks: [
      ...linesOf(content).map(({ line, result }) => countsOf(line.title, result.counts, result.planned, printing)),
      refusedCount(content, printing),
      runTable(content, printing),
      ...checkBlocks(content, printing),
      ...refusedBlocks(content, printing),
    ],
  };
}

function countsOf(
  title: string,
  counts: ReturnType<typeof linesOf>[number]['result']['counts'],
  planned: number,
  { say, counted }: Printing,
): Block {
  const { runs, valid, withDeviation, invalid, notDecided, void: voided, inClaim } = counts;
  return {
    block: 'paragraph',
    text: say(
      '{title}: {runs} recorded, {planned} planned. Valid {valid}, valid with deviation {withDeviation}, invalid {invalid}, validity not decided {notDecided}, void {voided}. In the claim: {inClaim}.',
      { title, runs: counted(runs, 'run'), planned, valid, withDeviation, invalid, notDecided, voided, inClaim },
    ),
  };
}

function refusedCount({ refused }: LotReportContent, { say }: Printing): Block {
  return {
    block: 'paragraph',
    text: say('Runs whose file was refused and is kept unread: {n}.', {
      n: refused.length === 0 ? say('none') : refused.length,
    }),
  };
}

function runTable(content: LotReportContent, printing: Printing): Table {
  const { say, told } = printing;
  const { bundle } = content;
  const entries = new Map(content.lot.lines.flatMap(({ entries: all }) => all.map((entry) => [entry.run, entry])));
  return {
    block: 'table',
    columns: [
      { title: say('Run') },
      { title: say('Specimen') },
      { title: say('Started') },
      { title: say('Rig, operator') },
      { title: say('How it ended') },
      { title: say('Validity, decided by') },
      { title: say('In the claim') },
    ],
    rows: bundle.runs.map((run) => {
      const entry = entries.get(run.run);
      return [
        run.run,
        run.specimen,
        timeOf(run.startedAt, bundle.lab.zone),
        { text: run.rig ?? say('keyed from a table'), under: personOf(bundle, run.operator) },
        endOf(content, run, printing),
        validityOf(content, run, printing),
        entry?.inClaim
          ? say('yes')
          : { text: say('no'), under: entry ? told(entry.because) : say('it belongs to no line of the plan') },
      ];
    }),
    empty: say('no run was made'),
  };
}

function endOf({ bundle }: LotReportContent, run: Run, { say, told }: Printing) {
  const { examination } = run;
  if (!examination) return say('no examination recorded');
  const { endReason, modes, partSound, note } = examination;
  const seen = modes.map(({ code, place }) => (place === undefined ? code : `${code} (${place})`)).join(', ');
  return {
    text: say(endReason),
    under: [seen, say(`part ${partSound}`), note ?? '', ...photosOf(bundle.methods, run, told)]
      .filter((one) => one !== '')
      .join('; '),
  };
}

/** How many photos the modes found ask for, how many of those there are, and why where some are not. */
function photosOf(methods: readonly Method[], run: Run, told: Printing['told']): string[] {
  const method = methods.find((one) => one.method === run.method && one.revision === run.methodRevision);
  const asked = photosAskedOf(method?.failureModes ?? [], run);
  if (asked.length === 0) return [];
  const because = run.examination?.withoutPhotos;
  return [told(photosInWords(asked)), ...(photosMissing(asked).length > 0 && because !== undefined ? [because] : [])];
}

function validityOf({ bundle, refused }: LotReportContent, { run, validity }: Run, { say }: Printing) {
  if (refused.some((one) => one.run === run)) return { text: say('not judged'), under: say('its file was refused') };
  if (!validity) return say('not decided');
  const why = [validity.reason && say(validity.reason), validity.note].filter((one) => one !== undefined).join(': ');
  return {
    text: say(validity.validity),
    under: [personOf(bundle, validity.person), why].filter((one) => one !== '').join('; '),
  };
}

/** Checks of the records that did not pass; they propose validity, people decide it. */
function checkBlocks({ readings }: LotReportContent, { say, told, counted }: Printing): Block[] {
  const rows = readings.flatMap(({ run, checks }) =>
    checks
      .filter(({ outcome }) => outcome === 'fail' || outcome === 'flag')
      .map(({ question, outcome, finding, action }) => [
        run,
        told(question),
        say(outcome),
        { text: told(finding), under: told(action ?? '') },
      ]),
  );
  const all = readings.reduce((sum, { checks }) => sum + checks.length, 0);
  return [
    {
      block: 'table',
      title: say('Checks of the records that did not pass ({checks} made)', { checks: counted(all, 'check') }),
      columns: [
        { title: say('Run') },
        { title: say('Question') },
        { title: say('Outcome') },
        { title: say('Finding') },
      ],
      rows,
      empty: say('none'),
    },
  ];
}

function refusedBlocks({ refused }: LotReportContent, { say, told }: Printing): Block[] {
  if (refused.length === 0) return [];
  return [
    {
      block: 'table',
      title: say('Refused files, kept unread'),
      columns: [{ title: say('Run') }, { title: say('What was wrong') }],
      rows: refused.flatMap(({ run, problems }) =>
        problems.map(({ detail, action }) => [run, { text: told(detail), under: told(action ?? '') }]),
      ),
      empty: say('none'),
    },
  ];
}
