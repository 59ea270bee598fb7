import { Controller, Get } from '@nestjs/common';
import { ModulesContainer } from '@nestjs/core';
import { z } from 'zod';
import { Duty } from '../sign-in/duty.decorator.js';
import { Answers } from './answers.decorator.js';
import { type OpenApiDocument, openApiOf } from './document.js';

/** The description of this interface. It holds nothing of any lab, so it is open to everybody. */
@Controller('api')
export class OpenApiController {
  private document?: OpenApiDocument;

  constructor(private readonly modules: ModulesContainer) {}

  @Get('openapi.json')
  @Duty('anybody')
  @Answers('This description', z.looseObject({ openapi: z.literal('3.1.0') }))
  describe(): OpenApiDocument {
    this.document ??= openApiOf(this.modules);
    return this.document;
  }
}
