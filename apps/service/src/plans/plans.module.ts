import { Module } from '@nestjs/common';
import { PlansController } from './plans.controller.js';

/** Plans: what will be tested, and what is claimed by it. */
@Module({ controllers: [PlansController] })
export class PlansModule {}
