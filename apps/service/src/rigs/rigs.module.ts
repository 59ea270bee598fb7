import { Module } from '@nestjs/common';
import { PlacementsController } from './placements.controller.js';
import { RigsController } from './rigs.controller.js';

/** Rigs, and where sensors sit on them. */
@Module({ controllers: [RigsController, PlacementsController] })
export class RigsModule {}
