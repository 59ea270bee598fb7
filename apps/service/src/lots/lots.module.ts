import { Module } from '@nestjs/common';
import { LotRecordsController } from './lot-records.controller.js';
import { LotsController } from './lots.controller.js';
import { LotsService } from './lots.service.js';

/** Lots: units made as one, as their last evaluation left them. */
@Module({ controllers: [LotsController, LotRecordsController], providers: [LotsService] })
export class LotsModule {}
