import { Module } from '@nestjs/common';
import { SigningModule } from '../signing/signing.module.js';
import { CertificatesController } from './certificates.controller.js';
import { CertificatesService } from './certificates.service.js';
import { CertificateStatusController } from './status.controller.js';

/** Certificates of test: issued, held, superseded, withdrawn, and their status for whoever has the paper. */
@Module({
  imports: [SigningModule],
  controllers: [CertificatesController, CertificateStatusController],
  providers: [CertificatesService],
})
export class CertificatesModule {}
