import { Records, tables } from '@breakbook/records';
import { Body, Controller, Get, Header, HttpCode, Param, Post, Query, Req, StreamableFile } from '@nestjs/common';
import { RouteConfig } from '@nestjs/platform-fastify';
import type { FastifyRequest } from 'fastify';
import { AnswersIn } from '../http/answers-in.decorator.js';
import { parsedBy } from '../http/parsed-by.js';
import { queriedBy } from '../http/queried-by.js';
import { SANDBOX } from '../http/security-headers.js';
import { Answers } from '../openapi/answers.decorator.js';
import { Because, type PageOf, pageOf } from '../records/kept.js';
import { Paging } from '../records/paging.js';
import { Again, Duty } from '../sign-in/duty.decorator.js';
import { SignedIn, type SignedInActor } from '../sign-in/signed-in.decorator.js';
import {
  NewOldTable,
  OldResultsBeside,
  OldTableAnswer,
  OldTableInList,
  OldTableTrial,
  oldResultsBeside,
  TrialAsked,
} from './old-result-answers.js';
import { OldResultsService } from './old-results.service.js';

/** Above what the reader takes, so that it is the reader that says how much that is. */
const TAKES = { takes: ['text/csv'], largestBody: 4 * 1024 * 1024 };

/** Results of earlier days from a table: marked as told, with no raw file, and never counted in any judgement. */
@Controller('api')
export class OldResultsController {
  constructor(
    private readonly records: Records,
    private readonly old: OldResultsService,
  ) {}

  @Get('old-results')
  @Duty('signed in')
  @Answers('Tables of old results', pageOf(OldTableInList))
  list(@Query(queriedBy(Paging)) paging: Paging, @SignedIn() by: SignedInActor): Promise<PageOf<OldTableInList>> {
    return this.old.list(by.labId, paging);
  }

  @Get('old-results/:table')
  @Duty('signed in')
  @Answers('One table of old results, row by row', OldTableAnswer)
  one(@Param('table') table: string, @SignedIn() by: SignedInActor): Promise<OldTableAnswer> {
    return this.old.one(by.labId, table);
  }

  @Get('old-results/:table/file')
  @Duty('signed in')
  @AnswersIn('text/csv')
  @Header('content-security-policy', SANDBOX)
  @Answers('The table itself, byte for byte as it was sent')
  async file(@Param('table') number: string, @SignedIn() by: SignedInActor): Promise<StreamableFile> {
    const { table, bytes } = await this.old.bytes(by.labId, number);
    return new StreamableFile(bytes, {
      type: 'text/csv',
      disposition: `attachment; filename="old-results-${table.number}.csv"`,
    });
  }

  @Post('old-results/trials')
  @HttpCode(200)
  @Duty('define', 'record')
  @RouteConfig(TAKES)
  @Answers('See what would be stored of a table of old results; nothing of it is kept', OldTableTrial)
  try(
    @Query(queriedBy(TrialAsked)) { name }: TrialAsked,
    @Req() { body }: FastifyRequest,
    @SignedIn() by: SignedInActor,
  ): Promise<OldTableTrial> {
    return this.old.try(by.labId, name, body);
  }

  @Post('old-results')
  @Duty('define', 'record')
  @RouteConfig(TAKES)
  @Answers('Take over a table of old results, whole or not at all: its bytes are the body', OldTableAnswer)
  take(
    @Query(queriedBy(NewOldTable)) asked: NewOldTable,
    @Req() { body }: FastifyRequest,
    @SignedIn() by: SignedInActor,
  ): Promise<OldTableAnswer> {
    return this.old.take(by, asked, body);
  }

  @Post('old-results/:table/withdrawal')
  @HttpCode(200)
  @Duty('define', 'review')
  @Again()
  @Answers('Withdraw a table that should not have been taken over; it stays readable', OldTableAnswer)
  withdraw(
    @Param('table') table: string,
    @Body(parsedBy(Because)) { reason }: Because,
    @SignedIn() by: SignedInActor,
  ): Promise<OldTableAnswer> {
    return this.old.withdraw(by, table, reason);
  }

  @Get('lots/:lot/old-results')
  @Duty('signed in')
  @Answers('Old results that tables tell of a lot; none enters its judgement', OldResultsBeside)
  async ofLot(@Param('lot') lot: string, @SignedIn() by: SignedInActor): Promise<OldResultsBeside> {
    const reader = this.records.read(by.labId);
    return { items: await oldResultsBeside(reader, { lotId: (await reader.named(tables.Lot, lot)).id }) };
  }

  @Get('products/:product/old-results')
  @Duty('signed in')
  @Answers('Old results that tables tell of a product; none enters a judgement', OldResultsBeside)
  async ofProduct(@Param('product') product: string, @SignedIn() by: SignedInActor): Promise<OldResultsBeside> {
    const reader = this.records.read(by.labId);
    return { items: await oldResultsBeside(reader, { productId: (await reader.named(tables.Product, product)).id }) };
  }
}
