import { Module } from '@nestjs/common';
import { LedgerModule } from '../ledger/ledger.module.js';
import { PackagesController } from './packages.controller.js';
import { PackagesService } from './packages.service.js';

/** Lots handed out with everything they rest on. */
@Module({
  imports: [LedgerModule],
  controllers: [PackagesController],
  providers: [PackagesService],
  exports: [PackagesService],
})
export class PackagesModule {}
