import { Paragraph } from '@breakbook/lab';
import { Body, Controller, Get, HttpCode, Param, Post, Query } from '@nestjs/common';
import { z } from 'zod';
import { parsedBy } from '../http/parsed-by.js';
import { queriedBy } from '../http/queried-by.js';
import { shortNumber } from '../http/short-number.js';
import { Answers } from '../openapi/answers.decorator.js';
import { Because, type PageOf, pageOf } from '../records/kept.js';
import { Again, Duty } from '../sign-in/duty.decorator.js';
import { SignedIn, type SignedInActor } from '../sign-in/signed-in.decorator.js';
import { CertificateAnswer } from './certificate-answer.js';
import { CertificatesAsked, CertificatesService, NewCertificate } from './certificates.service.js';

const Sending = z.strictObject({ recipient: Paragraph, way: Paragraph });
type Sending = z.infer<typeof Sending>;

/** Certificates of test and what became of them. */
@Controller('api')
export class CertificatesController {
  constructor(private readonly certificates: CertificatesService) {}

  @Get('certificates')
  @Duty('signed in')
  @Answers('Certificates of test, of one lot where it is named', pageOf(CertificateAnswer))
  list(
    @Query(queriedBy(CertificatesAsked)) asked: CertificatesAsked,
    @SignedIn() by: SignedInActor,
  ): Promise<PageOf<CertificateAnswer>> {
    return this.certificates.list(by.labId, asked);
  }

  @Get('certificates/:n')
  @Duty('signed in')
  @Answers('One certificate, what became of it, and who was told', CertificateAnswer)
  one(@Param('n', shortNumber('certificate')) n: number, @SignedIn() by: SignedInActor): Promise<CertificateAnswer> {
    return this.certificates.one(by.labId, n);
  }

  @Post('dispositions/:n/certificates')
  @Duty('issue')
  @Again()
  @Answers('Issue a certificate over a disposition, resting on the signed report that was shown', CertificateAnswer)
  issue(
    @Param('n', shortNumber('disposition')) n: number,
    @Body(parsedBy(NewCertificate)) body: NewCertificate,
    @SignedIn() by: SignedInActor,
  ): Promise<CertificateAnswer> {
    return this.certificates.issue(by, n, body);
  }

  @Post('certificates/:n/hold')
  @Duty('issue')
  @Again()
  @HttpCode(200)
  @Answers('Put a certificate on hold; whoever asks for its status is told why', CertificateAnswer)
  hold(
    @Param('n', shortNumber('certificate')) n: number,
    @Body(parsedBy(Because)) { reason }: Because,
    @SignedIn() by: SignedInActor,
  ): Promise<CertificateAnswer> {
    return this.certificates.move(by, n, 'put on hold', reason);
  }

  @Post('certificates/:n/release')
  @Duty('issue')
  @Again()
  @HttpCode(200)
  @Answers('Release a certificate that was on hold', CertificateAnswer)
  release(
    @Param('n', shortNumber('certificate')) n: number,
    @Body(parsedBy(Because)) { reason }: Because,
    @SignedIn() by: SignedInActor,
  ): Promise<CertificateAnswer> {
    return this.certificates.move(by, n, 'release', reason);
  }

  @Post('certificates/:n/withdrawal')
  @Duty('issue')
  @Again()
  @HttpCode(200)
  @Answers('Withdraw a certificate, for good', CertificateAnswer)
  withdraw(
    @Param('n', shortNumber('certificate')) n: number,
    @Body(parsedBy(Because)) { reason }: Because,
    @SignedIn() by: SignedInActor,
  ): Promise<CertificateAnswer> {
    return this.certificates.move(by, n, 'withdraw', reason);
  }

  @Post('certificates/:n/sendings')
  @Duty('issue')
  @Answers('Note who was sent a certificate, or told what became of it', CertificateAnswer)
  send(
    @Param('n', shortNumber('certificate')) n: number,
    @Body(parsedBy(Sending)) body: Sending,
    @SignedIn() by: SignedInActor,
  ): Promise<CertificateAnswer> {
    return this.certificates.send(by, n, body);
  }
}
