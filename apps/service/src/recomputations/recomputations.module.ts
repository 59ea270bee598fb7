import { Module } from '@nestjs/common';
import { RecomputationsController } from './recomputations.controller.js';
import { RecomputationsService } from './recomputations.service.js';

/** Recomputations: every run read again, and compared with what was kept of it. */
@Module({ controllers: [RecomputationsController], providers: [RecomputationsService] })
export class RecomputationsModule {}
