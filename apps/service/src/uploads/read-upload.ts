import { createHash } from 'node:crypto';
import fs from 'node:fs';
import type { IncomingMessage } from 'node:http';
import path from 'node:path';
import { pipeline } from 'node:stream/promises';
import { Refusal, shown } from '@breakbook/lab';
import type { MultipartFile } from '@fastify/multipart';
import type { FastifyRequest } from 'fastify';
import { jsonBody } from '../http/json-body.js';
import { UPLOAD_BOUNDS } from './bounds.js';
import { boundaryOf, PartCount } from './part-count.js';

/** A form as it came: the JSON of its one description, and its files on disk. */
export interface Upload {
  description: unknown;
  files: { name: string; path: string; sha256: string }[];
}

/** What the part with the JSON is called; a form of files alone has none. */
export type DescriptionPart = 'run' | 'layout' | 'none';
/** What the parts with files are called. */
const FILE = 'file';
const LONGEST_REST = 8 * 1024 * 1024;

/**
 * Reads a form of one part with JSON (`run`, unless it is called otherwise) and any number of parts `file`, as far as the bounds go. Files are written to
 * the folder as they come, so that none is in memory whole. Refuses a form that is not whole, or has other parts.
 */
export async function readUpload(
  request: FastifyRequest,
  folder: string,
  description: DescriptionPart = 'run',
): Promise<Upload> {
  const boundary = boundaryOf(request.headers['content-type'] ?? '');
  if (!request.isMultipart()) throw noForm();
  if (boundary === undefined)
    throw malformed('The header Content-Type names no boundary between the parts of the form.');
  const count = new PartCount(boundary);
  request.raw.on('data', (chunk: Buffer) => count.take(chunk));
  const read = new Parts(folder, description);
  try {
    for await (const part of request.parts({
      // Every part as a stream, so that one reader with one set of bounds reads them all.
      isPartAFile: () => true,
      preservePath: true,
      limits: {
        files: UPLOAD_BOUNDS.files + 1,
        parts: UPLOAD_BOUNDS.files + 2,
        fileSize: UPLOAD_BOUNDS.fileBytes,
        headerPairs: 20,
      },
      throwFileSizeLimit: false,
    } as Parameters<FastifyRequest['parts']>[0]))
      await read.take(part as MultipartFile);
  } catch (error) {
    discardRest(request.raw);
    throw error instanceof Refusal ? error : framingRefusal(error, partsExpected(description));
  }
  if (count.parts !== read.taken)
    throw malformed(
      `The form has ${count.parts} parts, and the head of ${count.parts - read.taken} cannot be read: each needs a line Content-Disposition: form-data; name="..." without line breaks in it.`,
    );
  return read.whole();
}

/**
 * Lets the rest of a refused form run out, so that its sender, still sending, comes to read the answer; cuts off one
 * that goes on and on.
 */
function discardRest(stream: IncomingMessage): void {
  let left = LONGEST_REST;
  stream.unpipe();
  stream.on('data', (chunk: Buffer) => {
    left -= chunk.length;
    if (left < 0) stream.destroy();
  });
  stream.resume();
}

/** The parts of one form, one after another. */
class Parts {
  taken = 0;
  #description: unknown;
  #bytes = 0;
  readonly #files: Upload['files'] = [];

  constructor(
    private readonly folder: string,
    private readonly description: DescriptionPart,
  ) {}

  async take(part: MultipartFile): Promise<void> {
    this.taken += 1;
    if (this.description !== 'none' && part.fieldname === this.description)
      this.#description = await this.#describe(part);
    else if (part.fieldname === FILE) this.#files.push(await this.#spool(part));
    else {
      part.file.resume();
      throw new Refusal({
        code: 'file.missing',
        found: shown(part.fieldname ?? ''),
        detail: `The form has a part called ${shown(part.fieldname ?? '') || '(nothing)'}, which is not read.`,
        expected: partsExpected(this.description),
        action: 'Name the parts so and send the form again.',
      });
    }
  }

  whole(): Upload {
    if (this.#description !== undefined || this.description === 'none')
      return { description: this.#description, files: this.#files };
    throw new Refusal({
      code: 'body.empty',
      detail: `The form has no part "${this.description}", which describes the ${this.description} in JSON.`,
      action: 'Send it beside the files.',
    });
  }

  async #describe(part: MultipartFile): Promise<unknown> {
    if (this.#description !== undefined) throw this.#tooMany(`The form has two parts "${this.description}".`);
    const chunks: Buffer[] = [];
    let size = 0;
    for await (const chunk of part.file as AsyncIterable<Buffer>) {
      size += chunk.length;
      if (size > UPLOAD_BOUNDS.descriptionBytes)
        throw new Refusal({
          code: 'body.too-large',
          detail: `The part "${this.description}" is longer than ${UPLOAD_BOUNDS.descriptionBytes} bytes.`,
        });
      chunks.push(chunk);
    }
    return jsonBody(Buffer.concat(chunks));
  }

  async #spool(part: MultipartFile): Promise<Upload['files'][number]> {
    if (this.#files.length === UPLOAD_BOUNDS.files)
      throw this.#tooMany(`The form has more than ${UPLOAD_BOUNDS.files} files.`);
    const name = part.filename ?? '';
    this.#requireName(name);
    // Never by the name it was sent under, which is anybody's text.
    const spooled = path.join(this.folder, `${this.#files.length + 1}`);
    const hash = createHash('sha256');
    part.file.on('data', (chunk: Buffer) => hash.update(chunk));
    await pipeline(part.file, fs.createWriteStream(spooled, { mode: 0o600 }));
    this.#bytes += part.file.bytesRead;
    if (part.file.truncated) throw tooLarge(name, `${shown(name)} is longer than ${UPLOAD_BOUNDS.fileBytes} bytes.`);
    if (this.#bytes > UPLOAD_BOUNDS.bytes)
      throw tooLarge(name, `With ${shown(name)} the files of this run are longer than ${UPLOAD_BOUNDS.bytes} bytes.`);
    if (part.file.bytesRead === 0)
      throw new Refusal({
        code: 'file.empty',
        file: shown(name),
        detail: `${shown(name)} has no bytes.`,
        action: 'Export the record again.',
      });
    return { name, path: spooled, sha256: hash.digest('hex') };
  }

  #tooMany(detail: string): Refusal {
    return tooMany(detail, partsExpected(this.description));
  }

  #requireName(name: string): void {
    const twice = this.#files.some((one) => one.name === name);
    if (!twice && name !== '' && !/[\0\r\n]/.test(name) && Buffer.byteLength(name) <= UPLOAD_BOUNDS.nameBytes) return;
    throw new Refusal({
      code: 'file.name-invalid',
      file: shown(name),
      found: shown(name),
      detail: twice ? `Two files of this run are called ${shown(name)}.` : `"${shown(name)}" is no name for a file.`,
      expected: `1 to ${UPLOAD_BOUNDS.nameBytes} bytes without zero bytes and line ends, each name once`,
      action: 'Give the file a name of its own and send the form again.',
    });
  }
}

/** What the reader of forms found wrong, in the words of the closed list. */
function framingRefusal(error: unknown, expected: string): unknown {
  const { code, message = '' } = error as { code?: string; message?: string };
  if (code === 'FST_FILES_LIMIT' || code === 'FST_PARTS_LIMIT' || code === 'FST_FIELDS_LIMIT')
    return tooMany(`The form has more than ${UPLOAD_BOUNDS.files} files.`, expected);
  if (code?.startsWith('FST_') || /multipart|terminated early|boundary|premature close|malformed/i.test(message))
    return malformed('The form ends before its closing boundary, or is not one at all.');
  return error;
}

function tooLarge(name: string, detail: string): Refusal {
  return new Refusal({
    code: 'file.too-large',
    file: shown(name),
    detail,
    action: 'Export the run alone, or at the rate the method asks for.',
  });
}

function tooMany(detail: string, expected: string): Refusal {
  return new Refusal({ code: 'request.too-many-parts', detail, expected });
}

function partsExpected(description: DescriptionPart): string {
  const files = `at most ${UPLOAD_BOUNDS.files} parts "${FILE}"`;
  return description === 'none' ? files : `one part "${description}" with the JSON of the ${description}, and ${files}`;
}

function malformed(detail: string): Refusal {
  return new Refusal({ code: 'request.malformed', detail, action: 'Send the form again, whole.' });
}

function noForm(): Refusal {
  return new Refusal({
    code: 'body.media-type',
    detail: 'Files are sent as the parts of a form.',
    expected: 'multipart/form-data; boundary=...',
  });
}
