import { Module } from '@nestjs/common';
import { OpenApiController } from './openapi.controller.js';

/** The description of the interface. */
@Module({ controllers: [OpenApiController] })
export class OpenApiModule {}
