import { Module } from '@nestjs/common';
import { ProposalsController } from './proposals.controller.js';
import { ProposalsService } from './proposals.service.js';

/** Proposals: methods, layouts, limits and plans by two people. */
@Module({ controllers: [ProposalsController], providers: [ProposalsService] })
export class ProposalsModule {}
