import { Readable } from 'node:stream';
import { Refusal, shown } from '@breakbook/lab';
import {
  Body,
  Controller,
  Get,
  Header,
  HttpCode,
  Param,
  Post,
  Query,
  Req,
  Res,
  StreamableFile,
  UseInterceptors,
} from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { IfMatch } from '../http/if-match.decorator.js';
import { parsedBy } from '../http/parsed-by.js';
import { queriedBy } from '../http/queried-by.js';
import { VersionTag } from '../http/version-tag.interceptor.js';
import { TracePlot } from '../lots/lot-answers.js';
import { Answers } from '../openapi/answers.decorator.js';
import { Reads } from '../openapi/reads.decorator.js';
import { type PageOf, pageOf } from '../records/kept.js';
import { Again, Duty } from '../sign-in/duty.decorator.js';
import { SignedIn, type SignedInActor } from '../sign-in/signed-in.decorator.js';
import { TakesForm } from '../uploads/forms.js';
import { LaterExamination, LaterInstant, LaterMeasurements, NewDecision } from './later-entries.js';
import { RunForm } from './new-run.js';
import { RecordedAnswer, RunAnswer } from './run-answer.js';
import { RunEntriesService } from './run-entries.service.js';
import { RunInList, RunsAsked } from './run-list.js';
import { RunsService } from './runs.service.js';

@Controller('api/runs')
@UseInterceptors(VersionTag)
export class RunsController {
  constructor(
    private readonly runs: RunsService,
    private readonly entries: RunEntriesService,
  ) {}

  @Post()
  @Duty('record', 'send')
  @TakesForm()
  @Reads({
    body: RunForm,
    headers: { 'idempotency-key': 'The same for every try to send this run: it is recorded once.' },
  })
  @Answers('Record a run: its description and its files, as the parts of a form', RecordedAnswer)
  async record(
    @SignedIn() by: SignedInActor,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<RecordedAnswer> {
    const answer = await this.runs.record(by, request);
    reply.header('location', `/api/runs/${answer.run}`);
    return answer;
  }

  @Get()
  @Duty('signed in')
  @Answers('Runs, of one lot or one specimen where it is named', pageOf(RunInList))
  list(@Query(queriedBy(RunsAsked)) asked: RunsAsked, @SignedIn() by: SignedInActor): Promise<PageOf<RunInList>> {
    return this.runs.list(by.labId, asked);
  }

  @Get(':run')
  @Duty('signed in')
  @Answers('One run; limits and verdicts once its validity is decided', RunAnswer)
  one(@Param('run') run: string, @SignedIn() by: SignedInActor): Promise<RunAnswer> {
    return this.runs.one(by.labId, run);
  }

  @Get(':run/trace')
  @Duty('signed in')
  @Answers('What the figure of a run shows', z.strictObject({ trace: TracePlot.nullable() }))
  trace(@Param('run') run: string, @SignedIn() by: SignedInActor) {
    return this.runs.trace(by.labId, run);
  }

  @Get(':run/files/:n')
  @Duty('signed in')
  @Answers('One file of a run, bit for bit')
  @Header('content-type', 'application/octet-stream')
  async file(
    @Param('run') run: string,
    @Param('n') n: string,
    @SignedIn() by: SignedInActor,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<StreamableFile> {
    const file = await this.runs.file(by.labId, run, countFrom(n));
    // RFC 9530; whoever keeps the bytes can check them for themselves.
    reply.header('repr-digest', `sha-256=:${Buffer.from(file.sha256, 'hex').toString('base64')}:`);
    return new StreamableFile(Readable.from(file.bytes), {
      type: 'application/octet-stream',
      disposition: `attachment; filename*=UTF-8''${headerName(file.name)}`,
      length: file.size,
    });
  }

  @Post(':run/measurements')
  @Duty('record')
  @Answers('Add or correct measurements of a run', RunAnswer)
  measure(
    @Param('run') run: string,
    @Body(parsedBy(LaterMeasurements)) body: LaterMeasurements,
    @IfMatch() seen: number,
    @SignedIn() by: SignedInActor,
  ): Promise<RunAnswer> {
    return this.entries.measure(by, run, seen, body);
  }

  @Post(':run/examination')
  @Duty('record')
  @Answers('Say how the specimen was found after the run', RunAnswer)
  examine(
    @Param('run') run: string,
    @Body(parsedBy(LaterExamination)) body: LaterExamination,
    @IfMatch() seen: number,
    @SignedIn() by: SignedInActor,
  ): Promise<RunAnswer> {
    return this.entries.examine(by, run, seen, body);
  }

  @Post(':run/instants')
  @Duty('record')
  @Answers('Move a moment of the record of a run, with the reason, or confirm it', RunAnswer)
  moveInstant(
    @Param('run') run: string,
    @Body(parsedBy(LaterInstant)) body: LaterInstant,
    @IfMatch() seen: number,
    @SignedIn() by: SignedInActor,
  ): Promise<RunAnswer> {
    return this.entries.moveInstant(by, run, seen, body);
  }

  @Post(':run/validity')
  @Duty('review')
  @Again()
  @Answers('Decide whether a run is valid', RunAnswer)
  @HttpCode(201)
  decide(
    @Param('run') run: string,
    @Body(parsedBy(NewDecision)) body: NewDecision,
    @IfMatch() seen: number,
    @SignedIn() by: SignedInActor,
  ): Promise<RunAnswer> {
    return this.entries.decide(by, run, seen, body);
  }
}

function countFrom(written: string): number {
  if (/^[1-9]\d{0,3}$/.test(written)) return Number(written);
  throw new Refusal({ code: 'request.not-found', detail: `There is no file "${shown(written)}"; files count from 1.` });
}

/** A name as RFC 8187 writes it in a header: what could leave its folder, or the header, is escaped or gone. */
function headerName(name: string): string {
  const last = name.split(/[/\\]/).at(-1) || 'run-file';
  return encodeURIComponent(last).replaceAll(/['()*]/g, (one) => `%${one.charCodeAt(0).toString(16).toUpperCase()}`);
}
