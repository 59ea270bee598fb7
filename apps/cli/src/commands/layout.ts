import fs from 'node:fs';
import path from 'node:path';
import { EXIT, Layout, Refusal, readJson, schemaProblems } from '@breakbook/lab';
import { type FileSurvey, type LayoutProposal, proposeLayout, surveyFile } from '@breakbook/signals';
import { printProblem, unreadable } from '../refusals.js';
import { Progress, printable, table, wrapped } from '../terminal.js';

/**
 * What a file says of how it is written, for a person to read, and a layout with what it does not say left empty. The
 * status is 0 where the file can be read in one way only, and 3 where a person has to decide something of it. With a
 * layout that was filled in, the whole file is read by it instead: what stands in its columns, or why it is refused.
 */
export async function layoutCommand(file: string, options: { json?: boolean; with?: string }): Promise<number> {
  const name = path.basename(file);
  if (options.with !== undefined) return surveyCommand(name, file, layoutIn(options.with), options);
  const proposal = await proposeLayout(name, piecesOf(file));
  console.log(options.json ? asJson(proposal.layout) : `${described(proposal)}\n\n${asJson(proposal.layout)}`);
  return proposal.doubts.length === 0 ? EXIT.done : EXIT.undecided;
}

async function surveyCommand(name: string, file: string, layout: Layout, { json }: { json?: boolean }) {
  const progress = new Progress('reading');
  const pieces = piecesOf(file);
  const { size } = fs.statSync(file);
  const survey = await surveyFile(name, pieces, layout, {
    onProgress: (bytes) => progress.report(bytes, size),
  }).finally(() => progress.end());
  console.log(json ? asJson(survey) : surveyed(survey));
  return EXIT.done;
}

/** Line by line, so that what must not reach a terminal is escaped, and the text stays JSON. */
function asJson(value: unknown): string {
  return JSON.stringify(value, null, 2).split('\n').map(printable).join('\n');
}

function piecesOf(file: string): AsyncIterable<Uint8Array> {
  requireFile(file);
  return fs.createReadStream(file, { highWaterMark: 2 ** 18 });
}

function layoutIn(file: string): Layout {
  requireFile(file);
  const value = readJson(fs.readFileSync(file), path.basename(file));
  const read = Layout.safeParse(value);
  if (!read.success) throw new Refusal(schemaProblems(read.error, value, path.basename(file)));
  return read.data;
}

function requireFile(file: string): void {
  try {
    fs.accessSync(file, fs.constants.R_OK);
    if (fs.statSync(file).isFile()) return;
  } catch (error) {
    if (!(error instanceof Error)) throw error;
  }
  throw unreadable(file);
}

function surveyed({ rows, bytes, sha256, columns, flags }: FileSurvey): string {
  const number = (value: number | undefined) => (value === undefined ? '' : String(value));
  return [
    `${rows} rows, ${bytes} bytes, SHA-256 ${sha256}`,
    '',
    table(
      [
        { head: 'column', side: 'right' },
        { head: 'name' },
        { head: 'unit' },
        { head: 'channel' },
        { head: 'readings', side: 'right' },
        { head: 'smallest', side: 'right' },
        { head: 'largest', side: 'right' },
      ],
      columns.map(({ column, name, unit, channel, readings, smallest, largest }) => [
        String(column),
        name,
        unit,
        channel ?? '',
        String(readings),
        number(smallest),
        number(largest),
      ]),
    ),
    ...(flags.length === 0 ? [] : ['', 'Taken with a flag:', ...flags.map(printProblem)]),
  ].join('\n');
}

function described({ understood, columns, doubts, toFill }: LayoutProposal): string {
  const list = (head: string, items: readonly string[]) =>
    items.length === 0 ? [] : ['', head, ...items.map((item) => wrapped(`- ${printable(item)}`, 96, '  '))];
  return [
    table(
      [{ head: 'what' }, { head: 'found' }],
      understood.map(({ what, found }) => [what, found]),
    ),
    '',
    table(
      [{ head: 'column', side: 'right' }, { head: 'name' }, { head: 'unit as written' }, { head: 'first values' }],
      columns.map(({ column, name, unit, first }) => [String(column), name, unit ?? '(none)', first.join(' | ')]),
    ),
    ...list('For a person to decide:', doubts),
    ...list('To fill in, since no file says it:', toFill),
  ].join('\n');
}
