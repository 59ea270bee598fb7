import { Module } from '@nestjs/common';
import { CalibrationsController } from './calibrations.controller.js';

/** Calibrations: the only home of corrections. */
@Module({ controllers: [CalibrationsController] })
export class CalibrationsModule {}
