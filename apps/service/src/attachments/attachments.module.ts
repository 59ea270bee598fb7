import { Module } from '@nestjs/common';
import { AttachmentsController } from './attachments.controller.js';
import { AttachmentsService } from './attachments.service.js';

/** Photos of lots, specimens, runs and rigs. */
@Module({ controllers: [AttachmentsController], providers: [AttachmentsService] })
export class AttachmentsModule {}
