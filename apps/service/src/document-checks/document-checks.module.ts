import { Module } from '@nestjs/common';
import { SigningModule } from '../signing/signing.module.js';
import { DocumentChecksController } from './document-checks.controller.js';
import { DocumentChecksService } from './document-checks.service.js';

/** Checks of documents that are sent in. */
@Module({ imports: [SigningModule], controllers: [DocumentChecksController], providers: [DocumentChecksService] })
export class DocumentChecksModule {}
