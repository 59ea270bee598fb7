import { Module } from '@nestjs/common';
import { RigTokenRecords } from './rig-token-records.js';
import { RigTokensController } from './rig-tokens.controller.js';
import { RigTokens } from './rig-tokens.js';

/** Tokens by which the computers of rigs send runs. */
@Module({ controllers: [RigTokensController], providers: [RigTokens, RigTokenRecords], exports: [RigTokens] })
export class RigTokensModule {}
