import { Module } from '@nestjs/common';
import { CodesController } from './codes.controller.js';
import { ComparisonsController } from './comparisons.controller.js';
import { ComparisonsService } from './comparisons.service.js';

/** Comparisons: items of unknown making, lots or suppliers, compared with what is known. */
@Module({ controllers: [ComparisonsController, CodesController], providers: [ComparisonsService] })
export class ComparisonsModule {}
