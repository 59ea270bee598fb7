import { Module } from '@nestjs/common';
import { SigningModule } from '../signing/signing.module.js';
import { BatchesController } from './batches/batches.controller.js';
import { BatchesService } from './batches/batches.service.js';
import { DocumentSigningService } from './document-signing.service.js';
import { DocumentsController } from './documents.controller.js';
import { DocumentsService } from './documents.service.js';
import { SheetMaker } from './sheets/sheet-maker.js';
import { SheetsController } from './sheets/sheets.controller.js';
import { SheetsService } from './sheets/sheets.service.js';

/** Documents: papers as they were made, with the data they were laid out from. */
@Module({
  imports: [SigningModule],
  controllers: [DocumentsController, SheetsController, BatchesController],
  providers: [DocumentsService, DocumentSigningService, SheetMaker, SheetsService, BatchesService],
  exports: [DocumentsService],
})
export class DocumentsModule {}
