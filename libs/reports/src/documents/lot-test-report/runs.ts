import { counted } from '@breakbook/acceptance';
import { type Method, photosAskedOf, photosInWords, photosMissing, type Run } from '@breakbook/lab';
import { linesOf, personOf } from '../../content/judged-lot.js';
import { type LotReportContent } from '../../content/lot-report-content.js';
import { type Block, type Section, type Table } from '../../parts/blocks.js';
import { timeOf } from '../../words/dates.js';

/** Every run of the set, also those that make no claim, each with the reason. */
export function runsSection(content: LotReportContent): Section {
  return {
    heading: 'Which runs were made, and which make the claim?',
    blocks: [
      ...linesOf(content).map(({ line, result }) => countsOf(line.title, result.counts, result.planned)),
      refusedCount(content),
      runTable(content),
      ...checkBlocks(content),
      ...refusedBlocks(content),
    ],
  };
}

function countsOf(
  title: string,
  counts: ReturnType<typeof linesOf>[number]['result']['counts'],
  planned: number,
): Block {
  const { runs, valid, withDeviation, invalid, notDecided, void: voided, inClaim } = counts;
  return {
    block: 'paragraph',
    text: `${title}: ${counted(runs, 'run')} recorded, ${planned} planned. Valid ${valid}, valid with deviation ${withDeviation}, invalid ${invalid}, validity not decided ${notDecided}, void ${voided}. In the claim: ${inClaim}.`,
  };
}

function refusedCount({ refused }: LotReportContent): Block {
  return {
    block: 'paragraph',
    text: `Runs whose file was refused and is kept unread: ${refused.length === 0 ? 'none' : refused.length}.`,
  };
}

function runTable(content: LotReportContent): Table {
  const { bundle } = content;
  const entries = new Map(content.lot.lines.flatMap(({ entries: all }) => all.map((entry) => [entry.run, entry])));
  return {
    block: 'table',
    columns: [
      { title: 'Run' },
      { title: 'Specimen' },
      { title: 'Started' },
      { title: 'Rig, operator' },
      { title: 'How it ended' },
      { title: 'Validity, decided by' },
      { title: 'In the claim' },
    ],
    rows: bundle.runs.map((run) => {
      const entry = entries.get(run.run);
      return [
        run.run,
        run.specimen,
        timeOf(run.startedAt, bundle.lab.zone),
        { text: run.rig ?? 'keyed from a table', under: personOf(bundle, run.operator) },
        endOf(content, run),
        validityOf(content, run),
        entry?.inClaim ? 'yes' : { text: 'no', under: entry?.because ?? 'it belongs to no line of the plan' },
      ];
    }),
    empty: 'no run was made',
  };
}

function endOf({ bundle }: LotReportContent, run: Run) {
  const { examination } = run;
  if (!examination) return 'no examination recorded';
  const { endReason, modes, partSound, note } = examination;
  const seen = modes.map(({ code, place }) => (place === undefined ? code : `${code} (${place})`)).join(', ');
  return {
    text: endReason,
    under: [seen, `part ${partSound}`, note ?? '', ...photosOf(bundle.methods, run)]
      .filter((one) => one !== '')
      .join('; '),
  };
}

/** How many photos the modes found ask for, how many of those there are, and why where some are not. */
function photosOf(methods: readonly Method[], run: Run): string[] {
  const method = methods.find((one) => one.method === run.method && one.revision === run.methodRevision);
  const asked = photosAskedOf(method?.failureModes ?? [], run);
  if (asked.length === 0) return [];
  const because = run.examination?.withoutPhotos;
  return [photosInWords(asked), ...(photosMissing(asked).length > 0 && because !== undefined ? [because] : [])];
}

function validityOf({ bundle, refused }: LotReportContent, { run, validity }: Run) {
  if (refused.some((one) => one.run === run)) return { text: 'not judged', under: 'its file was refused' };
  if (!validity) return 'not decided';
  const why = [validity.reason, validity.note].filter((one) => one !== undefined).join(': ');
  return {
    text: validity.validity,
    under: [personOf(bundle, validity.person), why].filter((one) => one !== '').join('; '),
  };
}

/** Checks of the records that did not pass; they propose validity, people decide it. */
function checkBlocks({ readings }: LotReportContent): Block[] {
  const rows = readings.flatMap(({ run, checks }) =>
    checks
      .filter(({ outcome }) => outcome === 'fail' || outcome === 'flag')
      .map(({ question, outcome, finding, action }) => [
        run,
        question,
        outcome,
        { text: finding, under: action ?? '' },
      ]),
  );
  const all = readings.reduce((sum, { checks }) => sum + checks.length, 0);
  return [
    {
      block: 'table',
      title: `Checks of the records that did not pass (${counted(all, 'check')} made)`,
      columns: [{ title: 'Run' }, { title: 'Question' }, { title: 'Outcome' }, { title: 'Finding' }],
      rows,
      empty: 'none',
    },
  ];
}

function refusedBlocks({ refused }: LotReportContent): Block[] {
  if (refused.length === 0) return [];
  return [
    {
      block: 'table',
      title: 'Refused files, kept unread',
      columns: [{ title: 'Run' }, { title: 'What was wrong' }],
      rows: refused.flatMap(({ run, problems }) =>
        problems.map(({ detail, action }) => [run, { text: detail, under: action ?? '' }]),
      ),
      empty: 'none',
    },
  ];
}
