import { Module } from '@nestjs/common';
import { CompetenceController } from './competence.controller.js';

/** Competence: what people are trained and authorised for. */
@Module({ controllers: [CompetenceController] })
export class CompetenceModule {}
