import { LedgerTrees } from '@breakbook/records';
import { Module } from '@nestjs/common';
import { CheckpointKeeper } from './checkpoint-keeper.js';
import { LedgerController } from './ledger.controller.js';
import { ProofsController } from './proofs.controller.js';

/** The ledger, for whoever wants to know what was done, and whether it still stands as it was written. */
@Module({
  // Of the same first word; the fixed addresses stand before those with a number in them.
  controllers: [ProofsController, LedgerController],
  providers: [LedgerTrees, CheckpointKeeper],
  exports: [CheckpointKeeper, LedgerTrees],
})
export class LedgerModule {}
