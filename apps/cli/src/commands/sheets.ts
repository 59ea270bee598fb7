import fs from 'node:fs';
import path from 'node:path';
import { evaluateLot, type LotEvaluation } from '@breakbook/acceptance';
import { sha256 } from '@breakbook/evidence';
import {
  destroysSpecimen,
  EXIT,
  LabelCode,
  LabelGridName,
  type LotBundle,
  type PrintChoice,
  printKept,
  Refusal,
} from '@breakbook/lab';
import {
  composeDocument,
  type DocumentContents,
  LABEL_GRIDS,
  labelSheetContent,
  runSheetContent,
  type StateOfSpecimen,
  specimenRecordContent,
} from '@breakbook/reports';
import { openLotFolder } from '../lot-folder.js';
import { type PrintOptions, printFrom } from '../print-options.js';
import { Progress, printable, table } from '../terminal.js';

export interface SheetsOptions extends PrintOptions {
  out: string;
  kind?: string[];
  grid: string;
  code: string;
  json?: boolean;
}

const KINDS = ['run-sheet', 'specimen-record', 'label-sheet'] as const;
type SheetKind = (typeof KINDS)[number];
type Content = DocumentContents['run sheet' | 'specimen record' | 'label sheet'];

/** A sheet to be laid out when its turn comes. */
interface Sheet {
  kind: SheetKind;
  /** The run, specimen or lot. */
  of: string;
  /** Within the folder of the lot. */
  file: string;
  content: () => Content;
}

/** A lot folder in; a sheet for each run, a record for each specimen and labels out. No server, no database. */
export async function sheetsCommand(folder: string, options: SheetsOptions): Promise<number> {
  const print = printFrom(options);
  const kinds = kindsFrom(options.kind);
  const labels = labelsFrom(options);
  const { bundle, filesOf } = openLotFolder(folder);
  const reading = new Progress('reading runs');
  const evaluation = evaluateLot(bundle, filesOf, ({ done, of, share }) => reading.report(done + share, of));
  reading.end();

  const sheets = sheetsOf(bundle, evaluation, { print, labels }).filter(({ kind }) => kinds.includes(kind));
  const place = path.join(options.out, bundle.lot.lot);
  const written: { kind: SheetKind; of: string; file: string; bytes: number; sha256: string }[] = [];
  const laying = new Progress('laying out sheets');
  for (const { kind, of, file, content } of sheets) {
    laying.report(written.length, sheets.length);
    const at = path.join(place, file);
    const one = content();
    const pdf = await composeDocument(one.document, one);
    fs.mkdirSync(path.dirname(at), { recursive: true });
    fs.writeFileSync(at, pdf);
    written.push({ kind, of, file: at, bytes: pdf.byteLength, sha256: sha256(pdf) });
  }
  laying.end();

  const refused = evaluation.refused.map(({ run, unread }) => ({ run: run.run, problems: unread }));
  if (options.json) console.log(JSON.stringify({ lot: bundle.lot.lot, sheets: written, refused }, null, 2));
  else
    console.log(
      [
        table(
          [{ head: 'Sheet' }, { head: 'Of' }, { head: 'File' }],
          written.map(({ kind, of, file }) => [kind, of, file]),
        ),
        ...refused.map(({ run, problems }) => printable(`Run ${run} was not read: ${problems[0]?.detail ?? ''}`)),
      ].join('\n'),
    );
  return refused.length > 0 ? EXIT.badInput : EXIT.done;
}

function kindsFrom(asked: readonly string[] = []): readonly SheetKind[] {
  const known = KINDS.filter((kind) => asked.includes(kind));
  const other = asked.find((one) => !KINDS.some((kind) => kind === one));
  if (other !== undefined)
    throw new Refusal({
      code: 'query.invalid',
      parameter: '--kind',
      detail: `--kind is "${other}"; it must be one of ${KINDS.join(', ')}.`,
      action: 'Give --kind once for each kind, or leave it out for all of them.',
    });
  return known.length === 0 ? KINDS : known;
}

interface Labels {
  grid: LabelGridName;
  code: LabelCode;
}

function labelsFrom({ grid, code }: Pick<SheetsOptions, 'grid' | 'code'>): Labels {
  const [asked, form] = [LabelGridName.safeParse(grid), LabelCode.safeParse(code)];
  if (asked.success && form.success) return { grid: asked.data, code: form.data };
  const [parameter, found, known] = asked.success
    ? ['--code', code, LabelCode.options]
    : ['--grid', grid, LabelGridName.options];
  throw new Refusal({
    code: 'query.invalid',
    parameter,
    detail: `${parameter} is "${found}"; it must be one of ${known.map((one) => `"${one}"`).join(', ')}.`,
  });
}

function sheetsOf(
  bundle: LotBundle,
  evaluation: LotEvaluation,
  { print, labels }: { print: PrintChoice; labels: Labels },
): Sheet[] {
  const issuedAt = new Date().toISOString();
  const numbered = (number: string) => ({ number: `${number}-draft`, revision: 1, issuedAt, signatures: [] });
  const chosen = printKept(print);
  return [
    ...bundle.runs.map(
      ({ run }): Sheet => ({
        kind: 'run-sheet',
        of: run,
        file: path.join('run-sheets', `${run}.pdf`),
        content: () => runSheetContent({ bundle, evaluation, run, document: numbered(`RS-${run}`), print: chosen }),
      }),
    ),
    ...bundle.specimens.map(
      ({ specimen }): Sheet => ({
        kind: 'specimen-record',
        of: specimen,
        file: path.join('specimen-records', `${specimen}.pdf`),
        content: () =>
          specimenRecordContent({
            bundle,
            evaluation,
            specimen,
            document: numbered(`SR-${specimen}`),
            ...statesIn(bundle, specimen),
            photos: [],
            legalHolds: [],
            nonconformities: [],
            ...(chosen ? { print: chosen } : {}),
          }),
      }),
    ),
    {
      kind: 'label-sheet',
      of: bundle.lot.lot,
      file: 'labels.pdf',
      content: () =>
        labelSheetContent({
          ...bundle,
          ...labels,
          document: numbered(`LS-${bundle.lot.lot}`),
          print: printKept({ ...print, paper: LABEL_GRIDS[labels.grid].paper, units: 'as kept' }),
        }),
    },
  ];
}

/** What a folder tells of a specimen's states: that it was received, and which run destroyed it. */
function statesIn(
  { runs, people }: LotBundle,
  specimen: string,
): { state: StateOfSpecimen['state']; states: StateOfSpecimen[] } {
  const last = runs.find(
    (one) => one.specimen === specimen && one.validity?.validity !== 'void' && destroysSpecimen(one.examination),
  );
  if (!last) return { state: 'received', states: [] };
  const by = people.find(({ person }) => person === last.operator)?.name ?? last.operator;
  return { state: 'destroyed', states: [{ state: 'destroyed', at: last.startedAt, by, run: last.run }] };
}
