import { Module } from '@nestjs/common';
import { DocumentsModule } from '../documents/documents.module.js';
import { EvaluationsController } from './evaluations.controller.js';
import { EvaluationsService } from './evaluations.service.js';

/** Evaluations: a lot judged under one plan revision. */
@Module({ imports: [DocumentsModule], controllers: [EvaluationsController], providers: [EvaluationsService] })
export class EvaluationsModule {}
