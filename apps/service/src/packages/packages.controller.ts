import { Readable } from 'node:stream';
import { Controller, Get, Header, HttpCode, Param, Post, Res, StreamableFile } from '@nestjs/common';
import type { FastifyReply } from 'fastify';
import { z } from 'zod';
import { AnswersIn } from '../http/answers-in.decorator.js';
import { shortNumber } from '../http/short-number.js';
import { JobAnswer } from '../jobs/job.js';
import { located } from '../jobs/located.js';
import { Answers } from '../openapi/answers.decorator.js';
import { Duty } from '../sign-in/duty.decorator.js';
import { SignedIn, type SignedInActor } from '../sign-in/signed-in.decorator.js';
import { LotPackageAnswer } from './package-answers.js';
import { PackagesService } from './packages.service.js';

@Controller('api')
export class PackagesController {
  constructor(private readonly packages: PackagesService) {}

  @Post('lots/:lot/packages')
  @Duty('audit', 'review', 'decide', 'issue')
  @Answers('Have a lot packed with everything it rests on: a job is begun', JobAnswer)
  @HttpCode(202)
  async pack(
    @Param('lot') lot: string,
    @SignedIn() by: SignedInActor,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<JobAnswer> {
    return located(reply, await this.packages.ask(by, lot));
  }

  @Get('lots/:lot/packages')
  @Duty('signed in')
  @Answers('Packages that were made of a lot, the last first', z.strictObject({ items: z.array(LotPackageAnswer) }))
  async ofLot(@Param('lot') lot: string, @SignedIn() by: SignedInActor): Promise<{ items: LotPackageAnswer[] }> {
    return { items: await this.packages.ofLot(by.labId, lot) };
  }

  @Get('packages/:n/zip')
  @Duty('audit', 'review', 'decide', 'issue')
  @AnswersIn('application/zip')
  @Header('cache-control', 'no-store')
  @Answers('A package, while it is kept')
  async zip(
    @Param('n', shortNumber('package')) n: number,
    @SignedIn() by: SignedInActor,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<StreamableFile> {
    const { lot, number, sha256, bytes, bytesOf } = await this.packages.zip(by, n);
    reply.header('repr-digest', `sha-256=:${Buffer.from(sha256, 'hex').toString('base64')}:`);
    return new StreamableFile(Readable.from(bytesOf), {
      type: 'application/zip',
      length: bytes,
      disposition: `attachment; filename="lot-${lot}-package-${number}.zip"`,
    });
  }
}
