import { Readable } from 'node:stream';
import { Body, Controller, Get, Header, HttpCode, Param, Post, Query, StreamableFile } from '@nestjs/common';
import { z } from 'zod';
import { parsedBy } from '../http/parsed-by.js';
import { queriedBy } from '../http/queried-by.js';
import { Answers } from '../openapi/answers.decorator.js';
import { Because, type PageOf, pageOf } from '../records/kept.js';
import { nextPlace, PAGING, pageAsked } from '../records/paging.js';
import { NewRun } from '../runs/new-run.js';
import { RecordedAnswer } from '../runs/run-answer.js';
import { Again, Duty } from '../sign-in/duty.decorator.js';
import { SignedIn, type SignedInActor } from '../sign-in/signed-in.decorator.js';
import { UnreadAnswer, UnreadService } from './unread.service.js';

const WhichUnread = z.strictObject({ ...PAGING, state: z.enum(['waiting', 'read', 'discarded', 'any']).optional() });
type WhichUnread = z.infer<typeof WhichUnread>;

@Controller('api/unread')
export class UnreadController {
  constructor(private readonly unread: UnreadService) {}

  @Get()
  @Duty('signed in')
  @Answers('Run files that were refused, and what became of them', pageOf(UnreadAnswer))
  async list(
    @Query(queriedBy(WhichUnread)) query: WhichUnread,
    @SignedIn() by: SignedInActor,
  ): Promise<PageOf<UnreadAnswer>> {
    const { state = 'waiting', ...paging } = query;
    const { items, more } = await this.unread.list(by.labId, state, pageAsked(paging, 'number'));
    return { items, next: nextPlace(items.at(-1)?.number, more) };
  }

  @Get(':id')
  @Duty('signed in')
  @Answers('One refused file', UnreadAnswer)
  one(@Param('id') id: string, @SignedIn() by: SignedInActor): Promise<UnreadAnswer> {
    return this.unread.one(by.labId, id);
  }

  @Get(':id/parts/:n')
  @Duty('signed in')
  @Header('content-type', 'application/octet-stream')
  @Answers('One part of a refused file, bit for bit')
  async part(@Param('id') id: string, @Param('n') n: string, @SignedIn() by: SignedInActor): Promise<StreamableFile> {
    const { size, bytes } = await this.unread.part(by.labId, id, n);
    return new StreamableFile(Readable.from(bytes), {
      type: 'application/octet-stream',
      disposition: 'attachment',
      length: size,
    });
  }

  @Post(':id/read')
  @Duty('record')
  @Answers('Have a refused file read for this run', RecordedAnswer)
  read(
    @Param('id') id: string,
    @Body(parsedBy(NewRun)) run: NewRun,
    @SignedIn() by: SignedInActor,
  ): Promise<RecordedAnswer> {
    return this.unread.read(by, id, run);
  }

  @Post(':id/discard')
  @Duty('record', 'review')
  @Again()
  @Answers('Discard a refused file that somebody else sent', UnreadAnswer)
  @HttpCode(200)
  discard(
    @Param('id') id: string,
    @Body(parsedBy(Because)) { reason }: Because,
    @SignedIn() by: SignedInActor,
  ): Promise<UnreadAnswer> {
    return this.unread.discard(by, id, reason);
  }
}
