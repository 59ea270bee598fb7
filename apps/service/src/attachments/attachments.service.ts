import { sha256 } from '@breakbook/evidence';
import { type Photo, Refusal, shown } from '@breakbook/lab';
import {
  type Actor,
  type Page,
  prepareRaw,
  type RawStore,
  type Reader,
  Records,
  rawFromBytes,
  readWhole,
  tables,
} from '@breakbook/records';
import { Inject, Injectable } from '@nestjs/common';
import { type FindOptionsWhere, In } from 'typeorm';
import { parameterProblem } from '../http/queried-by.js';
import { Quotas } from '../quotas/quotas.js';
import type { Change, PageOf } from '../records/kept.js';
import { Names } from '../records/names.js';
import { nextPlace, pageAsked } from '../records/paging.js';
import { RAW_STORE } from '../records/raw-store.token.js';
import { peopleBehind, saidBy } from '../records/read-kind.js';
import { Workers } from '../workers/workers.js';
import { attachedFileIn } from './attached-file.js';
import type { AttachmentsAsked, KeptAttachment, NewAttachment } from './attachment-answers.js';
import { subjectNamed, subjectOf } from './subject.js';
import type { Thumbnail } from './thumbnail.js';

/** A camera's clock may be this far ahead of ours, in ms. */
const CLOCK_AHEAD = 5 * 60_000;

/** Photos, videos and documents of lots, specimens, runs and rigs: their bytes as they came, and what is said of them. */
@Injectable()
export class AttachmentsService {
  constructor(
    private readonly records: Records,
    @Inject(RAW_STORE) private readonly store: RawStore,
    private readonly workers: Workers,
    private readonly quotas: Quotas,
  ) {}

  async list(labId: string, { lot, specimen, run, rig, ...paging }: AttachmentsAsked): Promise<PageOf<KeptAttachment>> {
    const reader = this.records.read(labId);
    const subject = await subjectNamed(reader, { lot, specimen, run, rig });
    const where: FindOptionsWhere<tables.Attachment> = subject ? { [subject.column]: subject.id } : {};
    const page: Page<tables.Attachment> = pageAsked(paging, 'number');
    const { rows, more } = await reader.page(tables.Attachment, where, page);
    return { items: await asAnswered(reader, rows), next: nextPlace(rows.at(-1)?.number, more) };
  }

  async one(labId: string, number: string): Promise<KeptAttachment> {
    const reader = this.records.read(labId);
    return theOne(await asAnswered(reader, [await numbered(reader, number)]));
  }

  /** The bytes of a photo, whole and checked: nothing is handed on that is not what was kept. */
  async bytes(labId: string, number: string, kind = ''): Promise<{ attachment: tables.Attachment; bytes: Uint8Array }> {
    const reader = this.records.read(labId);
    const attachment = await numbered(reader, number);
    if (!attachment.mediaType.startsWith(kind)) throw noneOf(number);
    return { attachment, bytes: await readWhole(this.store, reader, attachment.rawId) };
  }

  /** A small copy of a photo, with the photo's number and digest: made anew each time. */
  async thumbnail(labId: string, number: string): Promise<Thumbnail & { of: number; sha256: string }> {
    const { attachment, bytes } = await this.bytes(labId, number, 'image/');
    const made = await this.workers.run('make thumbnail', { photo: bytes });
    return { ...made, of: attachment.number, sha256: sha256(bytes) };
  }

  async add(by: Actor, asked: NewAttachment, bytes: unknown): Promise<KeptAttachment> {
    if (!(bytes instanceof Buffer) || bytes.length === 0)
      throw new Refusal({ code: 'body.empty', detail: 'The body is empty; it must be the bytes of the file.' });
    const { lot, specimen, run, rig, ...photo } = asked;
    const subject = await subjectNamed(this.records.read(by.labId), { lot, specimen, run, rig });
    if (!subject)
      throw new Refusal(parameterProblem('specimen', 'or lot, run or rig is needed: what the photo belongs to.'));
    const file = attachedFileIn(bytes);
    const raw = await prepareRaw(rawFromBytes(bytes));
    return this.records.change(by, 'file attached', async (rows) => {
      const takenById = await takenBy(rows, photo, '').catch(inAddress);
      const { id: rawId } = await this.store.keep(rows, raw);
      const nothing = { lotId: null, specimenId: null, runId: null, rigId: null };
      const belongs = { ...nothing, [subject.column]: subject.id };
      await refuseKnown(rows, { [subject.column]: subject.id, rawId });
      const attachment = await rows.add(tables.Attachment, { ...belongs, ...file, rawId });
      await rows.addVersion(tables.AttachmentVersion, attachment.id, { takenById, content: photo });
      await this.quotas.take(rows.manager, by, { bytes: raw.size });
      return theOne(await asAnswered(rows, [attachment]));
    });
  }

  async change(
    by: Actor,
    number: string,
    { content, reason }: Change<Photo>,
    follows: number,
  ): Promise<KeptAttachment> {
    const { id } = await numbered(this.records.read(by.labId), number);
    return this.records.change(by, 'attached file described otherwise', reason, async (rows) => {
      const takenById = await takenBy(rows, content, '/content');
      await rows.addVersion(tables.AttachmentVersion, id, { takenById, content }, follows);
      return theOne(await asAnswered(rows, [await rows.one(tables.Attachment, id)]));
    });
  }
}

async function numbered(reader: Reader, number: string): Promise<tables.Attachment> {
  const found = /^[1-9]\d{0,8}$/.test(number)
    ? await reader.maybe(tables.Attachment, { number: Number(number) })
    : undefined;
  if (found) return found;
  throw noneOf(number);
}

function noneOf(number: string): Refusal {
  return new Refusal({
    code: 'request.not-found',
    detail: `There is no such attachment "${shown(number)}" in this lab.`,
  });
}

/** Who took it, and that it was not taken in the future. */
async function takenBy(reader: Reader, photo: Photo, at: string): Promise<string> {
  const names = new Names(reader, at);
  const id = await names.person(photo.takenBy, '/takenBy');
  if (Date.parse(photo.takenAt) > Date.now() + CLOCK_AHEAD)
    names.note('body.range', '/takenAt', 'lies in the future. Check the clock of the camera.', photo.takenAt);
  names.refuse();
  return id;
}

/** What a new photo says of itself stands in its address, not in a body. */
function inAddress(error: unknown): never {
  if (!(error instanceof Refusal)) throw error;
  const problems = error.problems.map(({ pointer = '', detail, found }) =>
    parameterProblem(pointer.slice(1), detail.replace(`${pointer}: `, ''), found),
  );
  throw new Refusal(problems);
}

async function refuseKnown(reader: Reader, where: FindOptionsWhere<tables.Attachment>): Promise<void> {
  const [known] = await reader.find(tables.Attachment, where);
  if (!known) return;
  throw new Refusal({
    code: 'state.conflict',
    detail: `This file is kept already as number ${known.number}, and belongs to the same thing. Nothing was added.`,
  });
}

async function asAnswered(reader: Reader, rows: tables.Attachment[]): Promise<KeptAttachment[]> {
  const versions = await reader.latestOf(
    tables.AttachmentVersion,
    rows.map(({ id }) => id),
  );
  const people = await peopleBehind(reader, [...versions.values()]);
  const raws = await reader.find(tables.RawBytes, { id: In(rows.map(({ rawId }) => rawId)) });
  return Promise.all(
    rows.flatMap((row) => {
      const version = versions.get(row.id);
      const raw = raws.find(({ id }) => id === row.rawId);
      return version && raw ? [asOne(reader, row, version, raw, people)] : [];
    }),
  );
}

async function asOne(
  reader: Reader,
  row: tables.Attachment,
  version: tables.AttachmentVersion,
  { size, sha256 }: tables.RawBytes,
  people: ReadonlyMap<string, string>,
): Promise<KeptAttachment> {
  const { number, mediaType, width, height, recorded } = row;
  const of = await subjectOf(reader, row);
  return {
    number,
    of,
    mediaType,
    ...(width !== null && height !== null ? { width, height } : {}),
    ...(recorded ? { recorded } : {}),
    bytes: size,
    sha256,
    ...saidBy(version, people),
    content: version.content,
  };
}

function theOne([only]: KeptAttachment[]): KeptAttachment {
  if (!only) throw new Error('A photo was added without a word said of it.');
  return only;
}
