import { Module } from '@nestjs/common';
import { LimitsController } from './limits.controller.js';

/** Limits: what results are held against. */
@Module({ controllers: [LimitsController] })
export class LimitsModule {}
