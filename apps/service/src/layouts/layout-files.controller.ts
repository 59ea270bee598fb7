import { Layout, type MethodChannel, Refusal } from '@breakbook/lab';
import { Records, tables } from '@breakbook/records';
import { Controller, HttpCode, Post, Req } from '@nestjs/common';
import type { FastifyRequest } from 'fastify';
import { parsedBy } from '../http/parsed-by.js';
import { Answers } from '../openapi/answers.decorator.js';
import { Reads } from '../openapi/reads.decorator.js';
import { Duty } from '../sign-in/duty.decorator.js';
import { SignedIn, type SignedInActor } from '../sign-in/signed-in.decorator.js';
import { TakesForm } from '../uploads/forms.js';
import { readUpload, type Upload } from '../uploads/read-upload.js';
import { inSpool } from '../uploads/spool.js';
import { Workers } from '../workers/workers.js';
import { ProposalAnswer, ProposalForm, proposalAnswer, TrialAnswer, TrialForm } from './layout-answers.js';

const layoutOf = parsedBy(Layout);

/** Layouts made for a file at hand: what it says of itself, and what a layout makes of it. Nothing sent here is kept. */
@Controller('api/layouts')
export class LayoutFilesController {
  constructor(
    private readonly records: Records,
    private readonly workers: Workers,
  ) {}

  @Post('proposals')
  @Duty('define', 'record')
  @TakesForm()
  @Reads({ body: ProposalForm })
  @Answers('Have a layout proposed from a file, of which nothing is kept', ProposalAnswer)
  @HttpCode(200)
  propose(@Req() request: FastifyRequest): Promise<ProposalAnswer> {
    return inSpool(async (folder) => {
      const { name, path } = onlyFile(await readUpload(request, folder, 'none'));
      return proposalAnswer(await this.workers.run('propose layout', { name, path }));
    });
  }

  @Post('trials')
  @Duty('define', 'record')
  @TakesForm()
  @Reads({ body: TrialForm })
  @Answers('See what a layout makes of a file; neither is kept', TrialAnswer)
  @HttpCode(200)
  try(@Req() request: FastifyRequest, @SignedIn() by: SignedInActor): Promise<TrialAnswer> {
    return inSpool(async (folder) => {
      const upload = await readUpload(request, folder, 'layout');
      const layout = layoutOf.transform(upload.description, { type: 'body' });
      const { name, path } = onlyFile(upload);
      return this.workers.run('try layout', { name, path, layout, channels: await this.#channels(by.labId) });
    });
  }

  /** Channels of the methods in force: a unit in the file must be of the kind that they ask for. None is required here. */
  async #channels(labId: string): Promise<MethodChannel[]> {
    const reader = this.records.read(labId);
    const methods = await reader.find(tables.Method, {});
    const revisions = await reader.latestOf(
      tables.MethodRevision,
      methods.map(({ id }) => id),
    );
    const byName = new Map<string, MethodChannel>();
    for (const { content } of revisions.values())
      for (const one of content.channels)
        if (!byName.has(one.channel)) byName.set(one.channel, { ...one, required: false });
    return [...byName.values()];
  }
}

function onlyFile({ files }: Upload): Upload['files'][number] {
  const [only, ...others] = files;
  if (only && others.length === 0) return only;
  throw new Refusal({
    code: only ? 'request.too-many-parts' : 'file.missing',
    detail: only ? `The form has ${files.length} files.` : 'The form has no file.',
    expected: 'one file',
    action: 'Send the file that the layout is for, alone.',
  });
}
