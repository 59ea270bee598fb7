import { Module } from '@nestjs/common';
import { DisposalsController } from './disposals.controller.js';
import { DisposalsService } from './disposals.service.js';
import { KeepingController } from './keeping.controller.js';
import { LegalHoldsController } from './legal-holds.controller.js';

/** How long things are kept, what is on legal hold, and what was disposed of. */
@Module({
  controllers: [KeepingController, LegalHoldsController, DisposalsController],
  providers: [DisposalsService],
})
export class KeepingModule {}
