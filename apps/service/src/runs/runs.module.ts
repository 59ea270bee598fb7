import { Module } from '@nestjs/common';
import { AnsweredUploads } from '../uploads/answered-uploads.js';
import { RunHistoryController } from './history/history.controller.js';
import { ReviewsController } from './reviews/reviews.controller.js';
import { RunEntriesService } from './run-entries.service.js';
import { RunsController } from './runs.controller.js';
import { RunsService } from './runs.service.js';
import { TracesController } from './traces/traces.controller.js';
import { TracesService } from './traces/traces.service.js';

/** Runs: one specimen on one rig, with its files, its measurements, its examination and the decision on its validity. */
@Module({
  controllers: [RunsController, ReviewsController, RunHistoryController, TracesController],
  providers: [RunsService, RunEntriesService, TracesService, AnsweredUploads],
  exports: [RunsService],
})
export class RunsModule {}
