import type { NamedRow } from '@breakbook/evidence';
import type { Photo, Run } from '@breakbook/lab';
import { type Reader, rowContent, rowsItRestsOn, type StoredRow, tables } from '@breakbook/records';
import { In } from 'typeorm';
import { type StoredLot, storedLot } from '../lots/lot-bundle.js';
import { type OldResultsBeside, oldResultsBeside } from '../old-results/old-result-answers.js';

/** Bytes that the lab keeps. */
export interface KeptBytes {
  rawId: string;
  size: number;
  sha256: string;
}

/** Everything a package of a lot is made from, as it stood in one moment. */
export interface LotInPackage {
  stored: StoredLot;
  rows: StoredRow[];
  /** The files of each run, in its order. */
  runFiles: Map<string, (KeptBytes & { name: string })[]>;
  photos: (KeptBytes & { number: number; of: string; mediaType: tables.Attachment['mediaType']; content: Photo })[];
  documents: (KeptBytes & { number: number; kind: string })[];
  /** What old tables tell of the lot: no runs, and no part of its judgement. */
  oldResults: (OldResultsBeside['items'][number] & { tableSha256: string })[];
  /** The records that each evaluation was made from, where they were kept beside it. */
  evaluated: (KeptBytes & { number: number })[];
}

/** Reads a lot with everything it rests on. Within a snapshot, so that nothing comes between its parts. */
export async function lotInPackage(reader: Reader, lotKey: string, flag?: tables.SafetyFlag): Promise<LotInPackage> {
  const stored = await storedLot(reader, lotKey);
  const rows = await rowsItRestsOn(reader, tables.Lot, stored.ids.lotId, {
    also: [
      { table: tables.Lab, id: reader.labId },
      { table: tables.PlanRevision, id: stored.ids.planRevisionId },
      ...(flag ? [{ table: tables.SafetyFlag, id: flag.id }] : []),
    ],
  });
  const idsIn = (table: string) => rows.filter((one) => one.table === table).map(({ row }) => row.id);
  const raws = new Map(
    (await reader.find(tables.RawBytes, { id: In(idsIn('raw_bytes')) })).map(({ id, size, sha256 }) => [
      id,
      { rawId: id, size, sha256 },
    ]),
  );
  const kept = (rawId: string): KeptBytes => {
    const raw = raws.get(rawId);
    if (raw) return raw;
    throw new Error(`Bytes ${rawId} are named by a row and are not among what was found.`);
  };
  const evaluations = await reader.find(tables.Evaluation, { id: In(idsIn('evaluation')) });
  const documents = await reader.find(tables.Document, { id: In(idsIn('document')) });
  return {
    stored,
    rows,
    runFiles: new Map(
      [...stored.ids.runs].map(([run, { files }]) => [run, files.map(({ name, rawId }) => ({ name, ...kept(rawId) }))]),
    ),
    photos: await photosIn(reader, idsIn('attachment'), rows, kept),
    documents: documents.map(({ number, kind, rawId }) => ({ number, kind, ...kept(rawId) })),
    oldResults: await oldResultsIn(reader, stored.ids.lotId),
    evaluated: evaluations.flatMap(({ number, recordsId }) =>
      recordsId === null ? [] : [{ number, ...kept(recordsId) }],
    ),
  };
}

async function photosIn(
  reader: Reader,
  ids: string[],
  rows: readonly StoredRow[],
  kept: (rawId: string) => KeptBytes,
): Promise<LotInPackage['photos']> {
  const keys = new Map(rows.map(({ table, row }) => [row.id, `${table} ${String(row.key)}`]));
  const attachments = await reader.find(tables.Attachment, { id: In(ids) }, { number: 'asc' });
  const versions = await reader.latestOf(tables.AttachmentVersion, ids);
  return attachments.flatMap(({ id, number, mediaType, rawId, lotId, specimenId, runId, rigId }) => {
    const content = versions.get(id)?.content;
    const of = keys.get(lotId ?? specimenId ?? runId ?? rigId ?? '');
    return content && of ? [{ number, of, mediaType, content, ...kept(rawId) }] : [];
  });
}

async function oldResultsIn(reader: Reader, lotId: string): Promise<LotInPackage['oldResults']> {
  const found = await oldResultsBeside(reader, { lotId });
  const kept = await reader.find(tables.OldTable, { number: In([...new Set(found.map(({ table }) => table))]) });
  const raws = await reader.find(tables.RawBytes, { id: In(kept.map(({ rawId }) => rawId)) });
  return found.map((one) => {
    const rawId = kept.find(({ number }) => number === one.table)?.rawId;
    return { ...one, tableSha256: raws.find(({ id }) => id === rawId)?.sha256 ?? '' };
  });
}

/** A row as the ledger has the digest of it. */
export function namedRow({ table, row }: StoredRow): NamedRow {
  return { table, row: rowContent(row) as NamedRow['row'] };
}

/** What the rows of a lot say of who acted, by id. */
export function peopleIn(rows: readonly StoredRow[]): Map<string, string> {
  return new Map(rows.filter(({ table }) => table === 'person').map(({ row }) => [row.id, String(row.key)]));
}

/** Runs of which no rig wrote a file. */
export function runsWithoutFile(runs: readonly Run[]): string[] {
  return runs.filter(({ files }) => files.length === 0).map(({ run }) => run);
}
