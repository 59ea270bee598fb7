import { Module } from '@nestjs/common';
import { DispositionsController } from './dispositions.controller.js';
import { DispositionsService } from './dispositions.service.js';

/** Dispositions: what becomes of a lot, decided and signed. */
@Module({ controllers: [DispositionsController], providers: [DispositionsService] })
export class DispositionsModule {}
