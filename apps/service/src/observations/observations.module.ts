import { Module } from '@nestjs/common';
import { ObservationsController } from './observations.controller.js';
import { ObservationsService } from './observations.service.js';

/** Observations: what the physical examination wrote down, feature by feature. */
@Module({ controllers: [ObservationsController], providers: [ObservationsService] })
export class ObservationsModule {}
