import { Global, Module } from '@nestjs/common';
import { Quotas } from './quotas.js';

/** What one caller may use: whatever keeps bytes or makes something to be taken away counts here. */
@Global()
@Module({ providers: [Quotas], exports: [Quotas] })
export class QuotasModule {}
