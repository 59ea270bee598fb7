import { sha256 } from '@breakbook/evidence';
import { Refusal, SOFTWARE } from '@breakbook/lab';
import { type RawStore, type Reader, Records, tables } from '@breakbook/records';
import { Inject, Injectable } from '@nestjs/common';
import { In } from 'typeorm';
import { RAW_STORE } from '../records/raw-store.token.js';
import type { SignedInActor } from '../sign-in/signed-in.decorator.js';
import { SigningKeysService } from '../signing/signing-keys.service.js';
import { inSpool } from '../uploads/spool.js';
import { spoolRaw } from '../uploads/spool-raw.js';
import type { VerifiedFile } from '../workers/checked-document.js';
import { Workers } from '../workers/workers.js';
import type { CheckVerdict, DocumentCheckAnswer } from './document-check-answer.js';

/** A check in a thread of its own may take this long, in ms; a longer one is for the command line. */
const LONGEST = 120_000;
/** More differences are counted, not listed. */
const MOST_LISTED = 100;

/** Documents laid beside what the lab signed. */
@Injectable()
export class DocumentChecksService {
  constructor(
    private readonly records: Records,
    @Inject(RAW_STORE) private readonly store: RawStore,
    private readonly signingKeys: SigningKeysService,
    private readonly workers: Workers,
  ) {}

  async check(by: SignedInActor, body: unknown): Promise<DocumentCheckAnswer> {
    const file = pdfOf(body);
    const reader = this.records.read(by.labId);
    const signal = AbortSignal.timeout(LONGEST);
    const keys = await this.signingKeys.listed(by.labId);
    try {
      const verified = await this.workers.run('verify document', { file, keys }, { signal });
      const { findings, document } = verified;
      const digest = sha256(file);
      const own = document ? await keptAs(reader, digest) : {};
      return {
        verdict: verdictOf(file, verified, own),
        sha256: digest,
        findings: findings.map(({ asks, holds = null, says }) => ({ asks, holds, says })),
        ...(document ? { document } : {}),
        ...own,
        ...(await this.#recomputed(reader, file, verified, signal)),
      };
    } catch (error) {
      throw error instanceof DOMException && error.name === 'TimeoutError' ? tooLong() : error;
    }
  }

  async #recomputed(
    reader: Reader,
    file: Uint8Array,
    { runs }: VerifiedFile,
    signal: AbortSignal,
  ): Promise<Pick<DocumentCheckAnswer, 'recomputed'>> {
    if (!runs) return {};
    const found = await inSpool(async (folder) => {
      const digests = runs.flatMap(({ files }) => files.map((one) => one.sha256));
      const raws = await reader.find(tables.RawBytes, { sha256: In(digests) });
      const files = raws.map(({ id, sha256: digest }) => ({ name: digest, rawId: id, sha256: digest }));
      const kept = await spoolRaw({ store: this.store, reader, folder }, files);
      return this.workers.run('recompute document', { file, kept }, { signal });
    });
    const { numbers, since, filesRead, differences, pagesAlike = false } = found;
    return {
      recomputed: {
        numbers,
        since,
        now: SOFTWARE,
        filesRead,
        count: differences.length,
        differences: differences.slice(0, MOST_LISTED).map(({ pointer: _, ...one }) => one),
        pagesAlike,
      },
    };
  }
}

type Own = Pick<DocumentCheckAnswer, 'kept' | 'certificate'>;

/** Which of the lab's documents the very file is, and how it stands where it is a certificate. */
async function keptAs(reader: Reader, digest: string): Promise<Own> {
  const raw = await reader.maybe(tables.RawBytes, { sha256: digest });
  const document = raw && (await reader.maybe(tables.Document, { rawId: raw.id }));
  if (!document) return {};
  const certificate = await reader.maybe(tables.Certificate, { documentId: document.id });
  const said = certificate && (await reader.latestOf(tables.CertificateVersion, [certificate.id])).get(certificate.id);
  return {
    kept: document.number,
    ...(certificate && said ? { certificate: { number: certificate.number, state: said.state } } : {}),
  };
}

function verdictOf(file: Uint8Array, { findings }: VerifiedFile, { certificate }: Own): CheckVerdict {
  const first = findings.find(({ holds }) => holds !== true);
  if (!first) return certificate && certificate.state !== 'in force' ? STANDS[certificate.state] : 'holds';
  if (first.asks === 'signature') return 'unknown-key';
  // What a signature covers is said under this name in every signed file (ISO 32000-1, 12.8.1).
  return Buffer.from(file).includes('/ByteRange') ? 'altered' : 'not-recognised';
}

const STANDS = { 'on hold': 'on-hold', superseded: 'superseded', withdrawn: 'withdrawn' } as const;

function pdfOf(body: unknown): Uint8Array {
  if (!(body instanceof Uint8Array) || body.byteLength === 0)
    throw new Refusal({ code: 'body.empty', detail: 'The body is empty; it must be the bytes of a PDF.' });
  if (Buffer.from(body.subarray(0, 1024)).includes('%PDF-')) return body;
  throw new Refusal({
    code: 'file.type-mismatch',
    detail: 'The bytes that were sent are no PDF: they do not begin as one.',
    expected: 'a document as the lab handed it out',
    action: 'Choose the file itself, not a picture or a copy of it in another form.',
  });
}

function tooLong(): Refusal {
  return new Refusal({
    code: 'service.busy',
    detail: `Checking this document takes longer than ${LONGEST / 1000} s here, and was given up.`,
    action: 'Check it with the commands "breakbook verify" and "breakbook recompute".',
  });
}
