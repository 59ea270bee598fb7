import { Module } from '@nestjs/common';
import { MethodsController } from './methods.controller.js';

/** Methods: how tests are run. */
@Module({ controllers: [MethodsController] })
export class MethodsModule {}
