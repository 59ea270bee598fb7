import { Module } from '@nestjs/common';
import { CustodyController } from './custody.controller.js';
import { ProtectedNotesController } from './protected-notes.controller.js';

/** Custody of specimens, and notes of them that only some may read. */
@Module({ controllers: [CustodyController, ProtectedNotesController] })
export class CustodyModule {}
