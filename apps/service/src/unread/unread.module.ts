import { Module } from '@nestjs/common';
import { RunsModule } from '../runs/runs.module.js';
import { UnreadController } from './unread.controller.js';
import { UnreadService } from './unread.service.js';

/** Unread files: the bytes of runs that were refused. */
@Module({ imports: [RunsModule], controllers: [UnreadController], providers: [UnreadService] })
export class UnreadModule {}
