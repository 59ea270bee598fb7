import { Module } from '@nestjs/common';
import { ReferencesController } from './references.controller.js';

/** References: specimens of known making, chosen before anything is known of what is compared with them. */
@Module({ controllers: [ReferencesController] })
export class ReferencesModule {}
