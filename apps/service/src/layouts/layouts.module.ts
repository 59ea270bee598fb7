import { Module } from '@nestjs/common';
import { LayoutFilesController } from './layout-files.controller.js';
import { LayoutsController } from './layouts.controller.js';

/** Layouts: how the files of each rig are read. */
@Module({ controllers: [LayoutFilesController, LayoutsController] })
export class LayoutsModule {}
