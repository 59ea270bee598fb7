import { Module } from '@nestjs/common';
import { SpecimensController } from './specimens.controller.js';

/** Specimens: received once, destroyed once. */
@Module({ controllers: [SpecimensController] })
export class SpecimensModule {}
