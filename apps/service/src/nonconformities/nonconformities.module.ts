import { Module } from '@nestjs/common';
import { NonconformitiesController } from './nonconformities.controller.js';
import { NonconformitiesService } from './nonconformities.service.js';

/** Nonconformities: what does not meet a requirement, and what is done about it. */
@Module({ controllers: [NonconformitiesController], providers: [NonconformitiesService] })
export class NonconformitiesModule {}
