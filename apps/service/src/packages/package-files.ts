import {
  canonicalJson,
  type DataPackage,
  DESCRIPTOR,
  formatTable,
  LEDGER,
  LOT_FOLDER,
  type PackageResource,
  sha256,
  type TableSchema,
} from '@breakbook/evidence';
import { type LOT_FOLDER_DOCUMENTS, type LotBundle, SOFTWARE } from '@breakbook/lab';
import { fileName } from '../attachments/attached-file.js';
import type { EvaluationOnly } from '../workers/tasks.js';
import type { LedgerInPackage } from './ledger-in-package.js';
import { type KeptBytes, type LotInPackage, runsWithoutFile } from './lot-in-package.js';
import { lotTables } from './lot-tables.js';
import type { FileNames } from './package-names.js';
import { readMe } from './read-me.js';

/** A file of a package: bytes made for it, or bytes that the lab keeps. */
export interface PackedFile extends Pick<PackageResource, 'path' | 'title' | 'format' | 'mediatype' | 'sentAs'> {
  content: Buffer | KeptBytes;
  schema?: TableSchema;
}

export interface PackageContent {
  lot: LotInPackage;
  /** The lot as its folder has it, with the names that its files have there, and what it is judged to be. */
  bundle: LotBundle;
  names: FileNames;
  evaluation: EvaluationOnly;
  ledger: LedgerInPackage;
  checkpoint: { note: string; key: string };
}

/** Every file of a package but the descriptor and its seal. */
export function packageFiles({ lot, bundle, names, evaluation, ledger, checkpoint }: PackageContent): PackedFile[] {
  const runFiles = bundle.runs.flatMap(({ run }) =>
    (lot.runFiles.get(run) ?? []).map(({ name, ...kept }, index) => ({
      run,
      position: index + 1,
      sentAs: name,
      name: names.get(run)?.[index] ?? name,
      kept,
    })),
  );
  const photos = lot.photos.map(({ number, of, mediaType, content, ...kept }) => ({
    number,
    of,
    mediaType,
    content,
    kept,
    path: `photos/${fileName({ number, mediaType })}`,
  }));
  const tables = lotTables({
    bundle,
    evaluation,
    entries: ledger.inTable,
    oldResults: lot.oldResults,
    files: runFiles.map(({ run, position, sentAs, name, kept: { sha256, size } }) => ({
      run,
      position,
      path: `${LOT_FOLDER}/${name}`,
      sha256,
      bytes: size,
      sentAs,
    })),
    photos: photos.map(({ number, of, path, kept, content }) => ({
      number,
      of,
      path,
      sha256: kept.sha256,
      ...content,
    })),
  });
  return [
    text('README.txt', 'What this is, and how to read it', readMe(bundle, runsWithoutFile(bundle.runs))),
    ...lotFolder(bundle),
    json('result.json', 'What was read from the runs and concluded of the lot', resultOf(evaluation)),
    ...runFiles.map(
      ({ run, name, sentAs, kept }): PackedFile => ({
        path: `${LOT_FOLDER}/${name}`,
        title: `Raw file of run ${run}`,
        format: /\.csv$/i.test(name) ? 'csv' : 'dat',
        mediatype: 'application/octet-stream',
        content: kept,
        ...(sentAs === name ? {} : { sentAs }),
      }),
    ),
    ...photos.map(
      ({ path, of, mediaType, kept }): PackedFile => ({
        path,
        title: `${mediaType.startsWith('image/') ? 'Photo' : 'File'} of ${of}`,
        format: path.slice(-3),
        mediatype: mediaType,
        content: kept,
      }),
    ),
    ...lot.documents.map(
      ({ number, kind, ...kept }): PackedFile => ({
        path: `documents/document-${number}.pdf`,
        title: `Document ${number}: ${kind}`,
        format: 'pdf',
        mediatype: 'application/pdf',
        content: kept,
      }),
    ),
    ...lot.evaluated.map(
      ({ number, ...kept }): PackedFile => ({
        path: `evaluations/evaluation-${number}-records.json`,
        title: `The records that evaluation ${number} was made from`,
        format: 'json',
        mediatype: 'application/json',
        content: kept,
      }),
    ),
    ...tables.map(
      (table): PackedFile => ({
        path: `tables/${table.name}.csv`,
        title: table.title,
        format: 'csv',
        mediatype: 'text/csv',
        content: Buffer.from(formatTable(table)),
        schema: table.schema,
      }),
    ),
    text(LEDGER.key, 'The public key of the lab’s ledger', `${checkpoint.key}\n`),
    text(LEDGER.checkpoint, 'How far the ledger had grown, signed', checkpoint.note),
    lines(LEDGER.entries, 'Entries of the ledger, each with the proof that it is in it', ledger.entryLines),
    lines(LEDGER.rows, 'The rows that those entries name', ledger.rowLines),
  ];
}

/** The documents of the lot folder, as the command line reads them. */
function lotFolder(bundle: LotBundle): PackedFile[] {
  const { lab, customer, people, product, plan, limits, methods, rigs, layouts, sensors, calibrations, earlier } =
    bundle;
  const documents: Record<(typeof LOT_FOLDER_DOCUMENTS)[number], unknown> = {
    'lab.json': { lab, customer, people },
    'product.json': product,
    'plan.json': plan,
    'limits.json': limits,
    'methods.json': methods,
    'rigs.json': { rigs, layouts, sensors, calibrations },
    'lot.json': { lot: bundle.lot, specimens: bundle.specimens },
    'runs.json': bundle.runs,
  };
  const files = Object.entries({ ...documents, ...(earlier ? { 'earlier-lots.json': earlier } : {}) });
  return files.map(([name, content]) =>
    json(`${LOT_FOLDER}/${name}`, `The lot as breakbook judges it: ${name.replace('.json', '')}`, content),
  );
}

/** As `breakbook judge` writes it, so that `breakbook recompute` can compare with it. */
function resultOf({ result, runs, refused }: EvaluationOnly) {
  return {
    result,
    runs: runs.map(({ run, reading, judgement }) => ({ run: run.run, reading, judgement })),
    refused: refused.map(({ run, unread }) => ({ run: run.run, problems: unread })),
  };
}

function text(path: string, title: string, content: string): PackedFile {
  return { path, title, format: 'txt', mediatype: 'text/plain', content: Buffer.from(content) };
}

function json(path: string, title: string, value: unknown): PackedFile {
  const content = Buffer.from(`${canonicalJson(value)}\n`);
  return { path, title, format: 'json', mediatype: 'application/json', content };
}

function lines(path: string, title: string, content: string): PackedFile {
  return { path, title, format: 'jsonl', mediatype: 'application/jsonl', content: Buffer.from(content) };
}

/** The descriptor of a package of these files. */
export function descriptorOf(bundle: LotBundle, files: readonly PackedFile[], created: Date): PackedFile {
  const { lot, product } = bundle;
  const descriptor: DataPackage = {
    profile: 'data-package',
    name: `lot-${lot.lot.toLowerCase()}`,
    title: `Lot ${lot.lot} of ${product.name}`,
    description: 'A lot of parts that were broken on purpose, with everything that its judgement rests on.',
    created: created.toISOString(),
    form: 'breakbook package 1',
    software: SOFTWARE,
    lot: lot.lot,
    resources: files.map(resourceOf),
  };
  return json(DESCRIPTOR, 'The descriptor', descriptor);
}

function resourceOf({ content, schema, ...file }: PackedFile, index: number): PackageResource {
  const kept = 'rawId' in content ? content : { size: content.length, sha256: sha256(content) };
  const readable = 'rawId' in content ? {} : { encoding: 'utf-8' as const };
  return {
    name: schema ? file.path.replace(/^tables\/|\.csv$/g, '') : `file-${index + 1}`,
    profile: schema ? 'tabular-data-resource' : 'data-resource',
    ...file,
    ...readable,
    bytes: kept.size,
    hash: `sha256:${kept.sha256}`,
    ...(schema ? { schema } : {}),
  };
}
