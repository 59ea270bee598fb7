import { Controller, HttpCode, Post, Req } from '@nestjs/common';
import { RouteConfig } from '@nestjs/platform-fastify';
import type { FastifyRequest } from 'fastify';
import { Answers } from '../openapi/answers.decorator.js';
import { Duty } from '../sign-in/duty.decorator.js';
import { SignedIn, type SignedInActor } from '../sign-in/signed-in.decorator.js';
import { DocumentCheckAnswer } from './document-check-answer.js';
import { DocumentChecksService } from './document-checks.service.js';

/** A document that somebody holds, laid beside what the lab signed. */
@Controller('api/documents/check')
export class DocumentChecksController {
  constructor(private readonly checks: DocumentChecksService) {}

  @Post()
  @HttpCode(200)
  @Duty('signed in')
  @RouteConfig({ takes: ['application/pdf'], largestBody: 32 * 1024 * 1024 })
  @Answers('Check a document: its bytes are the body, and nothing of it is kept', DocumentCheckAnswer)
  check(@Req() { body }: FastifyRequest, @SignedIn() by: SignedInActor): Promise<DocumentCheckAnswer> {
    return this.checks.check(by, body);
  }
}
