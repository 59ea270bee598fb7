import { Module } from '@nestjs/common';
import { LedgerModule } from '../ledger/ledger.module.js';
import { SealingService } from './sealing.service.js';
import { SigningKeysController } from './signing-keys.controller.js';
import { SigningKeysService } from './signing-keys.service.js';

/** Signing: the lab's keys for documents, and documents signed with them. */
@Module({
  imports: [LedgerModule],
  controllers: [SigningKeysController],
  providers: [SigningKeysService, SealingService],
  exports: [SealingService, SigningKeysService],
})
export class SigningModule {}
