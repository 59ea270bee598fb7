import { Photo } from '@breakbook/lab';
import {
  Body,
  Controller,
  Get,
  Header,
  Param,
  Post,
  Put,
  Query,
  Req,
  Res,
  StreamableFile,
  UseInterceptors,
} from '@nestjs/common';
import { RouteConfig } from '@nestjs/platform-fastify';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { AnswersIn } from '../http/answers-in.decorator.js';
import { IfMatch } from '../http/if-match.decorator.js';
import { parsedBy } from '../http/parsed-by.js';
import { queriedBy } from '../http/queried-by.js';
import { SANDBOX } from '../http/security-headers.js';
import { VersionTag } from '../http/version-tag.interceptor.js';
import { Answers } from '../openapi/answers.decorator.js';
import { type Change, changeTo, type PageOf, pageOf } from '../records/kept.js';
import { Duty } from '../sign-in/duty.decorator.js';
import { SignedIn, type SignedInActor } from '../sign-in/signed-in.decorator.js';
import { fileName, LARGEST } from './attached-file.js';
import { AttachmentsAsked, KeptAttachment, MEDIA_TYPES, NewAttachment } from './attachment-answers.js';
import { AttachmentsService } from './attachments.service.js';

/** Photos, videos and documents, which are evidence: their bytes are kept as they came. */
@Controller('api/attachments')
@UseInterceptors(VersionTag)
export class AttachmentsController {
  constructor(private readonly attachments: AttachmentsService) {}

  @Get()
  @Duty('signed in')
  @Answers('Photos, of one thing where it is named', pageOf(KeptAttachment))
  list(
    @Query(queriedBy(AttachmentsAsked)) asked: AttachmentsAsked,
    @SignedIn() by: SignedInActor,
  ): Promise<PageOf<KeptAttachment>> {
    return this.attachments.list(by.labId, asked);
  }

  @Get(':attachment')
  @Duty('signed in')
  @Answers('What is said of one photo', KeptAttachment)
  one(@Param('attachment') number: string, @SignedIn() by: SignedInActor): Promise<KeptAttachment> {
    return this.attachments.one(by.labId, number);
  }

  @Get(':attachment/photo')
  @Duty('signed in')
  @AnswersIn('image/png', 'image/jpeg')
  @Header('cache-control', 'private, max-age=31536000, immutable')
  @Answers('The photo itself, as it was sent')
  async photo(@Param('attachment') number: string, @SignedIn() by: SignedInActor): Promise<StreamableFile> {
    const { attachment, bytes } = await this.attachments.bytes(by.labId, number, 'image/');
    return new StreamableFile(bytes, {
      type: attachment.mediaType,
      disposition: `inline; filename="${fileName(attachment)}"`,
    });
  }

  @Get(':attachment/thumbnail')
  @Duty('signed in')
  @AnswersIn('image/jpeg')
  @Header('cache-control', 'private, max-age=86400')
  @Answers('A small copy of a photo, made when asked for and no evidence; its headers say of which bytes, and by what')
  async thumbnail(
    @Param('attachment') number: string,
    @SignedIn() by: SignedInActor,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<StreamableFile> {
    const { bytes, madeBy, of, sha256 } = await this.attachments.thumbnail(by.labId, number);
    reply.header('breakbook-derived-from', `attachment ${of}; sha-256=${sha256}`).header('breakbook-made-by', madeBy);
    return new StreamableFile(bytes, {
      type: 'image/jpeg',
      disposition: `inline; filename="attachment-${of}-small-copy.jpg"`,
    });
  }

  @Get(':attachment/file')
  @Duty('signed in')
  @AnswersIn(...MEDIA_TYPES)
  @Header('cache-control', 'private, max-age=31536000, immutable')
  @Header('content-security-policy', SANDBOX)
  @Answers('A photo, video or document to be taken away, as it was sent')
  async file(@Param('attachment') number: string, @SignedIn() by: SignedInActor): Promise<StreamableFile> {
    const { attachment, bytes } = await this.attachments.bytes(by.labId, number);
    return new StreamableFile(bytes, {
      type: attachment.mediaType,
      disposition: `attachment; filename="${fileName(attachment)}"`,
    });
  }

  @Post()
  @Duty('draw', 'record', 'review', 'calibrate')
  @RouteConfig({ takes: [...MEDIA_TYPES], largestBody: LARGEST.other })
  @Answers('Attach a photo, video or document: its bytes are the body, the address says what it shows', KeptAttachment)
  add(
    @Query(queriedBy(NewAttachment)) asked: NewAttachment,
    @Req() { body }: FastifyRequest,
    @SignedIn() by: SignedInActor,
  ): Promise<KeptAttachment> {
    return this.attachments.add(by, asked, body);
  }

  @Put(':attachment')
  @Duty('draw', 'record', 'review', 'calibrate')
  @Answers('Correct what is said of a photo', KeptAttachment)
  change(
    @Param('attachment') number: string,
    @IfMatch() follows: number,
    @Body(parsedBy(changeTo(Photo))) change: Change<Photo>,
    @SignedIn() by: SignedInActor,
  ): Promise<KeptAttachment> {
    return this.attachments.change(by, number, change, follows);
  }
}
