import { Module } from '@nestjs/common';
import { SigningModule } from '../signing/signing.module.js';
import { DocumentSigningService } from './document-signing.service.js';
import { DocumentsController } from './documents.controller.js';
import { DocumentsService } from './documents.service.js';

/** Documents: papers as they were made, with the data they were laid out from. */
@Module({
  imports: [SigningModule],
  controllers: [DocumentsController],
  providers: [DocumentsService, DocumentSigningService],
  exports: [DocumentsService],
})
export class DocumentsModule {}
