import { Global, Module } from '@nestjs/common';
import { JobBell } from './job-bell.js';
import { JobEvents } from './job-events.js';
import { JobQueue } from './job-queue.js';
import { JobRunner } from './job-runner.js';
import { JobsController } from './jobs.controller.js';
import { JobsService } from './jobs.service.js';

/** Jobs: work that is done after the answer. Whoever does a kind of it says so to the runner. */
@Global()
@Module({
  controllers: [JobsController],
  providers: [JobBell, JobQueue, JobsService, JobRunner, JobEvents],
  exports: [JobsService, JobRunner],
})
export class JobsModule {}
