import { CertificateState, Instant, Key, Refusal } from '@breakbook/lab';
import { Records, tables } from '@breakbook/records';
import type { CertificateContent } from '@breakbook/reports';
import { Controller, Get, Param, Res } from '@nestjs/common';
import type { FastifyReply } from 'fastify';
import { DataSource } from 'typeorm';
import { z } from 'zod';
import { Answers } from '../openapi/answers.decorator.js';
import { Duty } from '../sign-in/duty.decorator.js';
import { certificateNumber } from './certificate-answer.js';
import { statusPage } from './status-page.js';

/** What a stranger is told who has the paper: what it says, and how it stands now. */
export const CertificateStatus = z.strictObject({
  certificate: z.string(),
  lab: z.string(),
  product: z.string(),
  lot: Key,
  issuedAt: Instant,
  /** SHA-256 of the signed file. */
  sha256: z.string(),
  state: CertificateState,
  since: Instant,
  /** Why, where it is no longer in force or was put back into force. */
  reason: z.string().optional(),
  replacedBy: z.string().optional(),
  askedAt: Instant,
});
export type CertificateStatus = z.infer<typeof CertificateStatus>;

/** The status of a certificate, for whoever has it before them; nothing else is told, and none can be guessed. */
@Controller()
export class CertificateStatusController {
  constructor(
    private readonly records: Records,
    private readonly dataSource: DataSource,
  ) {}

  @Get('api/certificate-status/:token')
  @Duty('anybody')
  @Answers('How a certificate stands, for whoever has the paper', CertificateStatus)
  status(@Param('token') token: string): Promise<CertificateStatus> {
    return this.#status(token);
  }

  /** The page that the code on the paper leads to; without scripts, so that any telephone shows it. */
  @Get('c/:token')
  @Duty('anybody')
  @Answers('The same as a page')
  async page(@Param('token') token: string, @Res({ passthrough: true }) reply: FastifyReply): Promise<string> {
    reply.header('content-type', 'text/html; charset=utf-8').header('cache-control', 'no-store');
    const status = await this.#status(token).catch((error: unknown) => {
      if (!(error instanceof Refusal)) throw error;
      reply.status(404);
      return undefined;
    });
    return statusPage(status);
  }

  async #status(token: string): Promise<CertificateStatus> {
    const one = /^[\w-]{22}$/.test(token)
      ? await this.dataSource.manager.findOneBy(tables.Certificate, { token })
      : undefined;
    if (!one)
      throw new Refusal({
        code: 'request.not-found',
        detail: 'There is no certificate of this code.',
        action: 'Compare it with the paper, or ask the lab.',
      });
    const reader = this.records.read(one.labId);
    const said = (await reader.latestOf(tables.CertificateVersion, [one.id])).get(one.id);
    const document = await reader.one(tables.Document, one.documentId);
    const { bundle, identity } = document.content as CertificateContent;
    const replacedBy = said?.replacedById ? await reader.one(tables.Certificate, said.replacedById) : undefined;
    if (!said) throw new Error(`Nothing is said of certificate ${one.number}.`);
    return {
      certificate: certificateNumber(one),
      lab: bundle.lab.name,
      product: bundle.product.name,
      lot: bundle.lot.lot,
      issuedAt: new Date(identity.issuedAt).toISOString(),
      sha256: (await reader.one(tables.RawBytes, document.rawId)).sha256,
      state: said.state,
      since: said.at.toISOString(),
      ...(said.reason === null ? {} : { reason: said.reason }),
      ...(replacedBy ? { replacedBy: certificateNumber(replacedBy) } : {}),
      askedAt: new Date().toISOString(),
    };
  }
}
