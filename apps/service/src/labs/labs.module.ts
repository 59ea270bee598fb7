import { Module } from '@nestjs/common';
import { LabsController } from './labs.controller.js';

/** Labs: name, address, zone. */
@Module({ controllers: [LabsController] })
export class LabsModule {}
