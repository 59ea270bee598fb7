import { formatNoteKey, SEAL, sealPackage, sha256 } from '@breakbook/evidence';
import { Refusal, SOFTWARE } from '@breakbook/lab';
import { LedgerKeys, LedgerTrees, newId, type RawStore, Reader, Records, tables } from '@breakbook/records';
import { Inject, Injectable, type OnModuleInit } from '@nestjs/common';
import { refuseBlinded } from '../comparisons/blinds.js';
import type { Job, JobAnswer } from '../jobs/job.js';
import { JobRunner } from '../jobs/job-runner.js';
import { JobsService } from '../jobs/jobs.service.js';
import { CheckpointKeeper } from '../ledger/checkpoint-keeper.js';
import { RAW_STORE } from '../records/raw-store.token.js';
import { flagNumbered } from '../safety-flags/flags-of.js';
import type { SignedInActor } from '../sign-in/signed-in.decorator.js';
import { inSpool } from '../uploads/spool.js';
import { spoolRaw } from '../uploads/spool-raw.js';
import type { EvaluationOnly } from '../workers/tasks.js';
import { type TaskOptions, Workers } from '../workers/workers.js';
import { flagFiles } from './flag-files.js';
import { ledgerInPackage } from './ledger-in-package.js';
import { type LotInPackage, lotInPackage } from './lot-in-package.js';
import type { LotPackageAnswer } from './package-answers.js';
import { blocksOf, hasBlocks, keepBlocks } from './package-blocks.js';
import { descriptorOf, type PackedFile, packageFiles } from './package-files.js';
import { fileNames, underNames } from './package-names.js';
import { zipOf } from './zip-of-files.js';

/** Where the parts of the work begin, as shares of it. */
const PACKING = 0.6;

/** Lots handed out with everything they rest on, as a job. */
@Injectable()
export class PackagesService implements OnModuleInit {
  constructor(
    private readonly records: Records,
    @Inject(RAW_STORE) private readonly store: RawStore,
    private readonly workers: Workers,
    private readonly jobs: JobsService,
    private readonly runner: JobRunner,
    private readonly trees: LedgerTrees,
    private readonly keys: LedgerKeys,
    private readonly keeper: CheckpointKeeper,
  ) {}

  onModuleInit(): void {
    this.runner.handle('lot package', (job, options) => this.#pack(job, options));
  }

  /** For the safety flag of this number, where it is to be evidence for one. */
  async ask(by: SignedInActor, lotKey: string, safetyFlag?: number): Promise<JobAnswer> {
    const reader = this.records.read(by.labId);
    const lot = await reader.named(tables.Lot, lotKey);
    await refuseBlinded(reader, by, lot.key, `The package of lot ${lot.key}`);
    return this.jobs.ask(by, 'lot package', {
      lot: lot.key,
      form: 'zip',
      ...(safetyFlag === undefined ? {} : { safetyFlag }),
    });
  }

  async ofLot(labId: string, lotKey: string): Promise<LotPackageAnswer[]> {
    const reader = this.records.read(labId);
    const lot = await reader.named(tables.Lot, lotKey);
    const packages = await reader.find(tables.LotPackage, { lotId: lot.id }, { number: 'desc' });
    return Promise.all(packages.map((one) => answered(reader, lot.key, one)));
  }

  /** The bytes of a package, while they are kept. */
  async zip(by: SignedInActor, number: number): Promise<LotPackageAnswer & { bytesOf: AsyncIterable<Uint8Array> }> {
    const reader = this.records.read(by.labId);
    const one = await reader.maybe(tables.LotPackage, { number });
    if (!one) throw new Refusal({ code: 'request.not-found', detail: `There is no package "${number}" in this lab.` });
    const lot = await reader.one(tables.Lot, one.lotId);
    await refuseBlinded(reader, by, lot.key, `The package of lot ${lot.key}`);
    const answer = await answered(reader, lot.key, one);
    if (!answer.kept)
      throw new Refusal({
        code: 'request.not-found',
        detail: `Package ${number} was made more than a day ago, and its bytes are kept no longer.`,
        action: `Have lot ${lot.key} packed again.`,
      });
    return { ...answer, bytesOf: blocksOf(reader, one.id) };
  }

  async #pack(job: Job<'lot package'>, { signal, onProgress }: Required<TaskOptions>): Promise<void> {
    const reader = this.records.read(job.labId);
    const { safetyFlag } = job.subject;
    const flag = safetyFlag === undefined ? undefined : await flagNumbered(reader, safetyFlag);
    const lot = await reader.manager.transaction('REPEATABLE READ', (manager) =>
      lotInPackage(new Reader(manager, job.labId), job.subject.lot, flag),
    );
    // Signed after the records were read, so that every entry that names one of them is under it.
    const checkpoint = await this.keeper.sign(job.labId);
    const tree = await this.trees.of(reader);
    const ledger = await ledgerInPackage(reader, lot.rows, { tree, size: checkpoint.size });
    const names = fileNames(lot.stored.bundle);
    const bundle = underNames(lot.stored.bundle, names);
    const evaluation = await this.#evaluate(reader, { lot, bundle }, { signal, onProgress });

    const made = new Date();
    const key = this.keys.of(job.labId);
    const files = packageFiles({
      lot,
      bundle,
      names,
      evaluation,
      ledger,
      checkpoint: { note: checkpoint.note, key: formatNoteKey(key) },
    }).concat(flag ? await flagFiles(reader, flag) : []);
    const descriptor = descriptorOf(bundle, files, made);
    const descriptorSha256 = sha256(descriptor.content as Buffer);
    const all = [descriptor, sealOf(sealPackage(descriptorSha256, key)), ...files];

    const id = newId();
    const total = all.reduce((sum, { content }) => sum + ('rawId' in content ? content.size : content.length), 0);
    let packed = 0;
    const read = async function* (this: PackagesService, rawId: string) {
      for await (const piece of this.store.read(reader, rawId)) {
        signal.throwIfAborted();
        packed += piece.byteLength;
        onProgress({ share: PACKING + ((1 - PACKING) * packed) / total, at: 'packing' });
        yield piece;
      }
    }.bind(this);
    const kept = await keepBlocks(reader, id, zipOf(all, { made, read }));
    await this.records.change(job, 'lot handed out as a package', async (rows) => {
      const row = await rows.add(tables.LotPackage, {
        id,
        lotId: lot.stored.ids.lotId,
        ledgerSize: checkpoint.size,
        descriptorSha256,
        ...kept,
        software: SOFTWARE,
      });
      if (flag) await rows.add(tables.SafetyFlagPackage, { safetyFlagId: flag.id, lotPackageId: row.id });
      await this.jobs.endWithin(rows, job, { outcome: 'done', lotPackageId: row.id });
    });
  }

  async #evaluate(
    reader: Reader,
    { lot, bundle }: { lot: LotInPackage; bundle: Parameters<typeof underNames>[0] },
    { signal, onProgress }: Required<TaskOptions>,
  ): Promise<EvaluationOnly> {
    return inSpool(async (folder) => {
      const files: { run: string; files: { name: string; path: string }[] }[] = [];
      for (const { run, files: named } of bundle.runs) {
        const kept = lot.runFiles.get(run) ?? [];
        const spooled = await spoolRaw({ store: this.store, reader, folder }, kept);
        files.push({
          run,
          files: spooled.map(({ path }, index) => ({ name: named[index]?.name ?? '', path })),
        });
      }
      return this.workers.run(
        'evaluate lot',
        { bundle, files },
        { signal, onProgress: ({ share, at }) => onProgress({ share: PACKING * share, at }) },
      );
    });
  }
}

function sealOf(note: string): PackedFile {
  return { path: SEAL, title: 'The seal', format: 'txt', mediatype: 'text/plain', content: Buffer.from(note) };
}

async function answered(reader: Reader, lot: string, one: tables.LotPackage): Promise<LotPackageAnswer> {
  const { number, at, personId, software, ledgerSize, descriptorSha256, sha256: zip, size } = one;
  return {
    number,
    lot,
    at: at.toISOString(),
    by: (await reader.one(tables.Person, personId)).key,
    software,
    ledgerSize,
    descriptorSha256,
    sha256: zip,
    bytes: size,
    kept: await hasBlocks(reader, one.id, size),
  };
}
