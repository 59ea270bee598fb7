import { Module } from '@nestjs/common';
import { ComputeController } from './compute.controller.js';

/** The calculator. */
@Module({ controllers: [ComputeController] })
export class ComputeModule {}
