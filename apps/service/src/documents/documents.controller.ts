import { Body, Controller, Get, Header, HttpCode, Param, Post, Query, Res, StreamableFile } from '@nestjs/common';
import type { FastifyReply } from 'fastify';
import { parsedBy } from '../http/parsed-by.js';
import { queriedBy } from '../http/queried-by.js';
import { shortNumber } from '../http/short-number.js';
import { JobAnswer } from '../jobs/job.js';
import { located } from '../jobs/located.js';
import { Answers } from '../openapi/answers.decorator.js';
import { type PageOf, pageOf } from '../records/kept.js';
import { Again, Duty } from '../sign-in/duty.decorator.js';
import { SignedIn, type SignedInActor } from '../sign-in/signed-in.decorator.js';
import { DocumentSigningService, NewSigning } from './document-signing.service.js';
import { DocumentAnswer, DocumentInList, DocumentsAsked, DocumentsService } from './documents.service.js';

@Controller('api/documents')
export class DocumentsController {
  constructor(
    private readonly documents: DocumentsService,
    private readonly signing: DocumentSigningService,
  ) {}

  @Get()
  @Duty('signed in')
  @Answers('Documents, of one lot, run, specimen or comparison where it is named', pageOf(DocumentInList))
  list(
    @Query(queriedBy(DocumentsAsked)) asked: DocumentsAsked,
    @SignedIn() by: SignedInActor,
  ): Promise<PageOf<DocumentInList>> {
    return this.documents.list(by.labId, asked);
  }

  @Get(':n')
  @Duty('signed in')
  @Answers('One document, with the data it was laid out from', DocumentAnswer)
  one(@Param('n', shortNumber('document')) n: number, @SignedIn() by: SignedInActor): Promise<DocumentAnswer> {
    return this.documents.one(by, n);
  }

  @Post(':n/signing')
  @Duty('issue')
  @Again()
  @HttpCode(202)
  @Answers('Authorise a document as it was shown, and have it signed by the lab: a job is begun', JobAnswer)
  async sign(
    @Param('n', shortNumber('document')) n: number,
    @Body(parsedBy(NewSigning)) body: NewSigning,
    @SignedIn() by: SignedInActor,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<JobAnswer> {
    return located(reply, await this.signing.ask(by, n, body));
  }

  @Get(':n.pdf')
  @Duty('signed in')
  @Answers('A document as it was kept')
  @Header('content-type', 'application/pdf')
  async pdf(
    @Param('n', shortNumber('document')) n: number,
    @SignedIn() by: SignedInActor,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<StreamableFile> {
    const { name, sha256, bytes } = await this.documents.pdf(by, n);
    reply.header('repr-digest', `sha-256=:${Buffer.from(sha256, 'hex').toString('base64')}:`);
    return new StreamableFile(bytes, { type: 'application/pdf', disposition: `inline; filename="${name}"` });
  }
}
