import { Module } from '@nestjs/common';
import { SensorsController } from './sensors.controller.js';

/** Sensors: what measures. */
@Module({ controllers: [SensorsController] })
export class SensorsModule {}
