import { Module } from '@nestjs/common';
import { RetestsController } from './retests.controller.js';

/** Retests: runs beyond a plan, each by an authorisation that counts it. */
@Module({ controllers: [RetestsController] })
export class RetestsModule {}
