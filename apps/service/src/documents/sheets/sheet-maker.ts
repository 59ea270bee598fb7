import { type Lab, type PrintChoice, Refusal, SOFTWARE } from '@breakbook/lab';
import {
  type PreparedRaw,
  prepareRaw,
  type RawStore,
  type Reader,
  Records,
  type Rows,
  rawFromBytes,
  tables,
} from '@breakbook/records';
import { Inject, Injectable } from '@nestjs/common';
import { In } from 'typeorm';
import type { JobSubjects } from '../../jobs/job.js';
import { RAW_STORE } from '../../records/raw-store.token.js';
import { flaggedDuplicates } from '../../runs/near-duplicates.js';
import { inSpool } from '../../uploads/spool.js';
import { spoolRaw } from '../../uploads/spool-raw.js';
import type { SheetContent, SheetToCompose } from '../../workers/compose-sheet.js';
import { type TaskOptions, Workers } from '../../workers/workers.js';
import { type LotForSheets, lotForSheets } from './lot-for-sheets.js';
import { lockSubject, type SheetKind, type SheetSubject, sheetNumber, sheetsOf } from './sheet-subject.js';
import { lifeOfSpecimen } from './specimen-life.js';

/** A sheet laid out and ready to be kept. */
export interface MadeSheet {
  kind: SheetKind;
  /** Of what, such as run 161. */
  of: string;
  subject: SheetSubject;
  /** How many of its kind and thing there were before. */
  before: number;
  content: SheetContent;
  raw: PreparedRaw;
}

/** Makes run sheets, specimen records and label sheets of what is stored, and keeps them as documents. */
@Injectable()
export class SheetMaker {
  constructor(
    private readonly records: Records,
    @Inject(RAW_STORE) private readonly store: RawStore,
    private readonly workers: Workers,
  ) {}

  /** A lot as it stands now, from which any number of its sheets are made. */
  lot(labId: string, lotKey: string): Promise<LotForSheets> {
    return lotForSheets({ records: this.records, workers: this.workers }, labId, lotKey);
  }

  async runSheet(
    labId: string,
    lot: LotForSheets,
    { run, ...print }: { run: string } & PrintChoice,
    options: TaskOptions,
  ): Promise<MadeSheet> {
    const reader = this.records.read(labId);
    const noun = await reader.named(tables.Run, run);
    const ids = lot.ids.runs.get(run);
    const kept = lot.readings.get(run);
    const [own] = lot.bundle.runs.filter((one) => one.run === run);
    if (!ids || !kept || !own) throw new Error(`Run ${run} is not among the runs of lot ${lot.bundle.lot.lot}.`);
    const subject = { lotId: lot.ids.lotId, specimenId: null, runId: noun.id };
    const before = await sheetsOf(reader, 'run sheet', subject);
    const told = await flaggedDuplicates(reader, noun.id, kept);
    return inSpool(async (folder) =>
      this.#composed(
        { of: `run ${run}`, subject, before },
        {
          kind: 'run sheet',
          bundle: partOf(lot, own.specimen, [own]),
          run,
          files: await spoolRaw({ store: this.store, reader, folder }, ids.files),
          kept,
          told,
          entry: lot.entries.get(run),
          report: lot.report,
          document: identity(sheetNumber('run sheet', run, before + 1), lot.at),
          print,
        },
        options,
      ),
    );
  }

  async specimenRecord(
    labId: string,
    lot: LotForSheets,
    { specimen, ...print }: { specimen: string } & PrintChoice,
    options: TaskOptions,
  ): Promise<MadeSheet> {
    const reader = this.records.read(labId);
    const noun = await reader.named(tables.Specimen, specimen);
    const subject = { lotId: lot.ids.lotId, specimenId: noun.id, runId: null };
    const before = await sheetsOf(reader, 'specimen record', subject);
    const runs = lot.bundle.runs.filter((one) => one.specimen === specimen);
    return this.#composed(
      { of: `specimen ${specimen}`, subject, before },
      {
        kind: 'specimen record',
        bundle: partOf(lot, specimen, runs),
        specimen,
        readings: runs.flatMap(({ run }) => lot.readings.get(run) ?? []),
        ...(await lifeOfSpecimen(reader, noun)),
        ...(lot.report ? { report: lot.report } : {}),
        document: identity(sheetNumber('specimen record', specimen, before + 1), lot.at),
        print,
      },
      options,
    );
  }

  /** Labels lie on their sheet in the order of the specimens' numbers. */
  async labelSheet(
    labId: string,
    { lot: lotKey, specimens, ...asked }: JobSubjects['label sheet'],
    at: Date,
    options: TaskOptions,
  ): Promise<MadeSheet> {
    const reader = this.records.read(labId);
    const lot = await reader.named(tables.Lot, lotKey);
    const nouns = await reader.find(
      tables.Specimen,
      { lotId: lot.id, ...(specimens ? { key: In(specimens) } : {}) },
      { number: 'asc' },
    );
    const said = await reader.latestOf(
      tables.SpecimenVersion,
      nouns.map(({ id }) => id),
    );
    const subject = { lotId: lot.id, specimenId: null, runId: null };
    const before = await sheetsOf(reader, 'label sheet', subject);
    return this.#composed(
      { of: `lot ${lotKey}`, subject, before },
      {
        kind: 'label sheet',
        lab: await labOf(reader),
        lot: { lot: lotKey },
        product: (await reader.latest(tables.ProductVersion, lot.productId)).content,
        specimens: nouns.flatMap(({ id }) => said.get(id)?.content ?? []),
        document: identity(sheetNumber('label sheet', lotKey, before + 1), at),
        ...asked,
      },
      options,
    );
  }

  /** Within a change: the sheet as a document; refused where another of the same thing came first. */
  async keep(rows: Rows, { kind, of, subject, before, content, raw }: MadeSheet): Promise<tables.Document> {
    await lockSubject(rows, subject);
    if ((await sheetsOf(rows, kind, subject)) !== before)
      throw new Refusal({
        code: 'service.busy',
        detail: `Another ${kind} of ${of} was made in the same moment, and has its number.`,
        action: 'Nothing need be done: it is made again under the next number.',
      });
    const { id: rawId } = await this.store.keep(rows, raw);
    const document = await rows.add(tables.Document, { kind, evaluationId: null, rawId, software: SOFTWARE, content });
    await rows.add(tables.DocumentSubject, { documentId: document.id, ...subject });
    return document;
  }

  async #composed(
    made: Pick<MadeSheet, 'of' | 'subject' | 'before'>,
    sheet: SheetToCompose,
    options: TaskOptions,
  ): Promise<MadeSheet> {
    const { content, pdf } = await this.workers.run('compose sheet', sheet, options);
    return { ...made, kind: sheet.kind, content, raw: await prepareRaw(rawFromBytes(pdf)) };
  }
}

/** Of a lot what a sheet of one specimen can need, so that no thread is handed hundreds of others. */
function partOf({ bundle }: LotForSheets, specimen: string, runs: LotForSheets['bundle']['runs']) {
  const { earlier: _, ...records } = bundle;
  return { ...records, specimens: bundle.specimens.filter((one) => one.specimen === specimen), runs };
}

function identity(number: string, at: Date) {
  return { number, revision: 1, issuedAt: at.toISOString(), signatures: [] };
}

async function labOf(reader: Reader): Promise<Lab> {
  return (await reader.latest(tables.LabVersion, reader.labId)).content;
}
