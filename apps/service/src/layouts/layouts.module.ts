import { Module } from '@nestjs/common';
import { LayoutsController } from './layouts.controller.js';

/** Layouts: how the files of each rig are read. */
@Module({ controllers: [LayoutsController] })
export class LayoutsModule {}
