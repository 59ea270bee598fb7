import { Module } from '@nestjs/common';
import { LedgerController } from './ledger.controller.js';

/** The ledger, for whoever wants to know what was done, and whether it still stands as it was written. */
@Module({ controllers: [LedgerController] })
export class LedgerModule {}
