import { Module } from '@nestjs/common';
import { SpecimenStatesController } from './specimen-states.controller.js';
import { SpecimensController } from './specimens.controller.js';

/** Specimens: received once, destroyed once. */
@Module({ controllers: [SpecimensController, SpecimenStatesController] })
export class SpecimensModule {}
