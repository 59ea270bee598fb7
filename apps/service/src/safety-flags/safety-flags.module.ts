import { Module } from '@nestjs/common';
import { PackagesModule } from '../packages/packages.module.js';
import { SafetyFlagsController } from './safety-flags.controller.js';
import { SafetyFlagsService } from './safety-flags.service.js';

/** Product-safety flags: what somebody saw that may endanger riders. */
@Module({ imports: [PackagesModule], controllers: [SafetyFlagsController], providers: [SafetyFlagsService] })
export class SafetyFlagsModule {}
