import { Module } from '@nestjs/common';
import { PlanningController } from './planning.controller.js';
import { PlanningService } from './planning.service.js';

/** What a test would need and risk, before anything is broken. */
@Module({ controllers: [PlanningController], providers: [PlanningService] })
export class PlanningModule {}
