import { randomBytes } from 'node:crypto';
import { canonicalJson } from '@breakbook/evidence';
import { CERTIFICATE_STATES, Key, Paragraph, Refusal, requireMove, SOFTWARE } from '@breakbook/lab';
import { prepareRaw, type RawStore, type Reader, Records, rawFromBytes, tables } from '@breakbook/records';
import type { CertificateContent, LotReportContent } from '@breakbook/reports';
import { Inject, Injectable } from '@nestjs/common';
import { z } from 'zod';
import { reports } from '../arithmetic.js';
import { reportAffairsOf } from '../dispositions/affairs-of.js';
import { answersOf } from '../dispositions/stored-dispositions.js';
import { documentNumbered } from '../documents/documents.service.js';
import { printedPerson } from '../documents/printed-person.js';
import type { PageOf } from '../records/kept.js';
import { nextPlace, PAGING, pageAsked } from '../records/paging.js';
import { RAW_STORE } from '../records/raw-store.token.js';
import { within } from '../records/within.js';
import { requireOther } from '../sign-in/forbidden-pairs.js';
import { PUBLIC_ADDRESS } from '../sign-in/public-address.token.js';
import type { PublicAddress } from '../sign-in/session-cookie.js';
import type { SignedInActor } from '../sign-in/signed-in.decorator.js';
import { SealingService } from '../signing/sealing.service.js';
import { Workers } from '../workers/workers.js';
import { type CertificateAnswer, certificateAnswer, certificateNumber, statusPath } from './certificate-answer.js';

/** Certificates, of one lot where it is named. */
export const CertificatesAsked = z.strictObject({ ...PAGING, lot: Key.optional() });
export type CertificatesAsked = z.infer<typeof CertificatesAsked>;

/** A certificate to be issued over a disposition, resting on the signed report that was shown. */
export const NewCertificate = z.strictObject({
  /** The signed lot test report, and the digest of its file as it was shown. */
  report: z.number().int().min(1),
  shown: z.string().regex(/^[0-9a-f]{64}$/),
  /** The certificate it takes the place of, what changed against that one, and why. */
  replaces: z.strictObject({ certificate: z.number().int().min(1), changed: Paragraph, because: Paragraph }).optional(),
});
export type NewCertificate = z.infer<typeof NewCertificate>;

type Fate = 'put on hold' | 'release' | 'withdraw';
const COMES_TO = { 'put on hold': 'on hold', release: 'in force', withdraw: 'withdrawn' } as const;
const DONE = {
  'put on hold': 'certificate put on hold',
  release: 'certificate released',
  withdraw: 'certificate withdrawn',
} as const;

/** Certificates of test: issued over a disposition and signed by the lab; held, released, superseded, withdrawn. */
@Injectable()
export class CertificatesService {
  constructor(
    private readonly records: Records,
    @Inject(RAW_STORE) private readonly store: RawStore,
    @Inject(PUBLIC_ADDRESS) private readonly address: PublicAddress,
    private readonly workers: Workers,
    private readonly sealing: SealingService,
  ) {}

  async list(labId: string, { lot, ...paging }: CertificatesAsked): Promise<PageOf<CertificateAnswer>> {
    const reader = this.records.read(labId);
    const where = await within<tables.Certificate, tables.Lot>(reader, tables.Lot, 'lot', lot);
    const { rows, more } = await reader.page(tables.Certificate, where, pageAsked(paging, 'number'));
    const items = await Promise.all(rows.map((one) => certificateAnswer(reader, one)));
    return { items, next: nextPlace(items.at(-1)?.number, more) };
  }

  async one(labId: string, number: number): Promise<CertificateAnswer> {
    const reader = this.records.read(labId);
    return certificateAnswer(reader, await certificateNumbered(reader, number));
  }

  async issue(by: SignedInActor, disposition: number, body: NewCertificate): Promise<CertificateAnswer> {
    const reader = this.records.read(by.labId);
    const { replaces } = body;
    await this.sealing.from(by.labId);
    // Composed outside the change, which keeps everybody waiting; what it rests on is looked at again within.
    const number = ((await reader.find(tables.Certificate, {}, { number: 'asc' })).at(-1)?.number ?? 0) + 1;
    const token = randomBytes(16).toString('base64url');
    const content = await this.#content(reader, by, disposition, body, { number, token });
    const { pdf, contentId, signingKeyId } = await this.sealing.seal(
      by,
      {
        kind: content.document,
        document: content.identity.number,
        revision: content.identity.revision,
        json: canonicalJson(content),
      },
      (sealing) => this.workers.run('compose document', { content, sealing }),
    );
    const raw = await prepareRaw(rawFromBytes(pdf));
    await this.records.change(by, 'certificate issued', replaces?.because, async (rows) => {
      await rows.lockLedger();
      const { decided, before } = await this.#basis(rows, by, disposition, body);
      const { id: rawId } = await this.store.keep(rows, raw);
      const { id: documentId } = await rows.add(tables.Document, {
        kind: content.document,
        evaluationId: decided.evaluationId,
        rawId,
        software: SOFTWARE,
        content,
      });
      await rows.add(tables.DocumentSealing, { documentId, contentId, signingKeyId, draftId: null });
      const { lotId, id: dispositionId } = decided;
      const certificate = await rows.add(tables.Certificate, { lotId, dispositionId, documentId, token });
      if (certificate.number !== number)
        throw new Refusal({
          code: 'state.conflict',
          detail:
            'Another certificate was issued in the same moment, and took the number that this one was printed with.',
          action: 'Issue it again.',
        });
      await rows.addVersion(tables.CertificateVersion, certificate.id, { state: 'in force', replacedById: null });
      if (before)
        await rows.addVersion(tables.CertificateVersion, before.id, {
          state: 'superseded',
          replacedById: certificate.id,
        });
    });
    return this.one(by.labId, number);
  }

  /** Puts it on hold, releases or withdraws it; the reason is told to whoever asks for its status. */
  async move(by: SignedInActor, number: number, fate: Fate, reason: string): Promise<CertificateAnswer> {
    await this.records.change(by, DONE[fate], reason, async (rows) => {
      const one = await certificateNumbered(rows, number);
      await rows.lock(tables.Certificate, one.id);
      requireOther(by, 'issue a document', `certificate ${number}`, []);
      requireMove(CERTIFICATE_STATES, fate, await stateOf(rows, one), `certificate ${number}`);
      await rows.addVersion(tables.CertificateVersion, one.id, { state: COMES_TO[fate], replacedById: null });
    });
    return this.one(by.labId, number);
  }

  async send(by: SignedInActor, number: number, body: { recipient: string; way: string }): Promise<CertificateAnswer> {
    await this.records.change(by, 'certificate sent', async (rows) => {
      const one = await certificateNumbered(rows, number);
      await rows.add(tables.CertificateSending, { certificateId: one.id, state: await stateOf(rows, one), ...body });
    });
    return this.one(by.labId, number);
  }

  /** What it rests on, each as it must be: the decision, the report, and the certificate whose place it takes. */
  async #basis(reader: Reader, by: SignedInActor, number: number, { report, shown, replaces }: NewCertificate) {
    const decided =
      (await reader.maybe(tables.Disposition, { number })) ?? (await reader.one(tables.Disposition, `${number}`));
    requireOther(by, 'issue a document', `the certificate of disposition ${number}`, []);
    const [disposition] = await answersOf(reader, [decided]);
    if (!disposition) throw new Error(`Disposition ${number} was found and has no answer.`);
    if (disposition.state !== 'in force' || disposition.outcome === 'not accepted')
      throw conflict(
        `Disposition ${number} is ${disposition.state}: ${disposition.outcome}.`,
        'A certificate is issued over a disposition that is in force and accepts the lot.',
      );
    const document = await documentNumbered(reader, report);
    const raw = await reader.one(tables.RawBytes, document.rawId);
    if (
      document.kind !== 'lot test report' ||
      !(await reader.maybe(tables.DocumentSealing, { documentId: document.id }))
    )
      throw conflict(
        `Document ${report} is no signed lot test report.`,
        'Have the report of the lot authorised and signed first.',
      );
    if (document.evaluationId !== decided.evaluationId)
      throw conflict(
        `Document ${report} is of another evaluation than disposition ${number} rests on.`,
        'Name the report of the evaluation that was decided on.',
      );
    if (raw.sha256 !== shown)
      throw conflict(`Document ${report} is not what was shown: its digest is ${raw.sha256}.`, 'Look at it as it is.');
    const before = await standing(reader, decided.lotId);
    if (before && before.number !== replaces?.certificate)
      throw conflict(
        `Lot ${disposition.lot} has certificate ${certificateNumber(before)}, which is ${await stateOf(reader, before)}.`,
        'Say that this one takes its place, what changed and why; or withdraw that one first.',
      );
    if (replaces && !before)
      throw conflict(
        `Certificate ${replaces.certificate} of this lot is not there to be replaced.`,
        'Leave out what it replaces.',
      );
    return { decided, disposition, document, before };
  }

  async #content(
    reader: Reader,
    by: SignedInActor,
    number: number,
    body: NewCertificate,
    own: { number: number; token: string },
  ): Promise<CertificateContent> {
    const { decided, disposition, document, before } = await this.#basis(reader, by, number, body);
    const at = new Date();
    const { certificateContent } = await reports();
    const { origin } = this.address;
    return certificateContent({
      report: document.content as LotReportContent,
      disposition,
      affairs: await reportAffairsOf(reader, decided.lotId, at),
      document: {
        number: certificateNumber(own),
        revision: 1,
        issuedAt: at.toISOString(),
        signatures: [await printedPerson(reader, 'authorised', by.personId, at.toISOString())],
        ...(before && body.replaces
          ? {
              replaces: {
                number: certificateNumber(before),
                revision: 1,
                changed: body.replaces.changed,
                because: body.replaces.because,
              },
            }
          : {}),
      },
      ...(origin === undefined ? {} : { statusUrl: `${origin}${statusPath(own)}` }),
    });
  }
}

function conflict(detail: string, action: string): Refusal {
  return new Refusal({ code: 'state.conflict', detail, action });
}

/** The certificate of a lot that is in force or on hold. */
async function standing(reader: Reader, lotId: string): Promise<tables.Certificate | undefined> {
  const all = await reader.find(tables.Certificate, { lotId }, { number: 'asc' });
  for (const one of all.toReversed()) {
    const state = await stateOf(reader, one);
    if (state === 'in force' || state === 'on hold') return one;
  }
  return undefined;
}

async function stateOf(reader: Reader, { id }: tables.Certificate): Promise<tables.CertificateVersion['state']> {
  const said = (await reader.latestOf(tables.CertificateVersion, [id])).get(id);
  if (!said) throw new Error(`Nothing is said of certificate ${id}.`);
  return said.state;
}

async function certificateNumbered(reader: Reader, number: number): Promise<tables.Certificate> {
  return (await reader.maybe(tables.Certificate, { number })) ?? reader.one(tables.Certificate, `${number}`);
}
