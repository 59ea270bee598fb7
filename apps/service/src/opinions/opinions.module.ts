import { Module } from '@nestjs/common';
import { OpinionsController } from './opinions.controller.js';
import { OpinionsService } from './opinions.service.js';

/** Opinions and interpretations. */
@Module({ controllers: [OpinionsController], providers: [OpinionsService] })
export class OpinionsModule {}
