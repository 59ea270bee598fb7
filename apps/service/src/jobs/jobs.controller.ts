import { Readable } from 'node:stream';
import { Controller, Get, Header, HttpCode, Param, Post, StreamableFile } from '@nestjs/common';
import { Answers } from '../openapi/answers.decorator.js';
import { Duty } from '../sign-in/duty.decorator.js';
import { SignedIn, type SignedInActor } from '../sign-in/signed-in.decorator.js';
import { JobAnswer } from './job.js';
import { JobEvents } from './job-events.js';
import { JobsService } from './jobs.service.js';

@Controller('api/jobs')
export class JobsController {
  constructor(
    private readonly jobs: JobsService,
    private readonly events: JobEvents,
  ) {}

  @Get(':id')
  @Duty('signed in')
  @Answers('How far a job is, and what came of it', JobAnswer)
  one(@Param('id') id: string, @SignedIn() by: SignedInActor): Promise<JobAnswer> {
    return this.jobs.one(by.labId, id);
  }

  /** The job as it stands, and again each time something happens to it, until it has ended. */
  @Get(':id/events')
  @Duty('signed in')
  @Answers('The same, told as it goes on: an event for each change, ending with the job')
  @Header('content-type', 'text/event-stream')
  @Header('cache-control', 'no-store')
  async watch(@Param('id') id: string, @SignedIn() by: SignedInActor): Promise<StreamableFile> {
    const job = await this.jobs.one(by.labId, id);
    return new StreamableFile(Readable.from(this.events.of(by.labId, job)), { type: 'text/event-stream' });
  }

  @Post(':id/cancel')
  @Duty('signed in')
  @Answers('Give up a job', JobAnswer)
  @HttpCode(200)
  cancel(@Param('id') id: string, @SignedIn() by: SignedInActor): Promise<JobAnswer> {
    return this.jobs.cancel(by, id);
  }
}
