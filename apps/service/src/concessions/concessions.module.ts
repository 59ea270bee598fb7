import { Module } from '@nestjs/common';
import { ConcessionsController } from './concessions.controller.js';
import { ConcessionsService } from './concessions.service.js';

/** Concessions and deviation permits: bounded leave to depart from a requirement of the lab's own. */
@Module({ controllers: [ConcessionsController], providers: [ConcessionsService] })
export class ConcessionsModule {}
