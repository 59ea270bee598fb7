import { Global, Module } from '@nestjs/common';
import { Workers } from './workers.js';

/** The threads in which runs are read, lots judged and documents laid out. */
@Global()
@Module({ providers: [Workers], exports: [Workers] })
export class WorkersModule {}
