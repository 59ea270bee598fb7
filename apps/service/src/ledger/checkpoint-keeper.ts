import fs from 'node:fs';
import path from 'node:path';
import { LedgerKeys, LedgerTrees, lastCheckpoint, makeCheckpoint, Records, type tables } from '@breakbook/records';
import { Inject, Injectable, Logger, type OnApplicationBootstrap, type OnModuleDestroy } from '@nestjs/common';

/** Where the copies of checkpoints are put that the lab does not control, where there is such a place. */
export const CHECKPOINT_COPIES = Symbol('checkpoint copies');

/** A checkpoint is due after so many entries, or so long after the last one where anything was written since. */
const MOST_ENTRIES = 100;
const LONGEST = 3_600_000;
const LOOK_EVERY = 30_000;

/** Signs how far the ledgers have grown, at intervals and when asked, and puts a copy where it is told to. */
@Injectable()
export class CheckpointKeeper implements OnApplicationBootstrap, OnModuleDestroy {
  readonly #log = new Logger('ledger');
  #timer: NodeJS.Timeout | undefined;
  #looking: Promise<void> | undefined;

  constructor(
    private readonly records: Records,
    private readonly trees: LedgerTrees,
    private readonly keys: LedgerKeys,
    @Inject(CHECKPOINT_COPIES) private readonly copies: string | undefined,
  ) {}

  onApplicationBootstrap(): void {
    this.#timer = setInterval(() => {
      this.#looking ??= this.look().finally(() => {
        this.#looking = undefined;
      });
    }, LOOK_EVERY);
    this.#timer.unref();
  }

  async onModuleDestroy(): Promise<void> {
    clearInterval(this.#timer);
    await this.#looking;
  }

  /** Signs what is due, in every lab. A lab whose turn fails has another at the next look. */
  async look(now = Date.now()): Promise<void> {
    try {
      for (const { id } of await this.records.labs()) if (await this.#isDue(id, now)) await this.sign(id);
    } catch (error) {
      this.#log.error(error, 'A checkpoint of the ledger could not be signed.');
    }
  }

  /** The checkpoint of everything written so far. */
  async sign(labId: string): Promise<tables.LedgerCheckpoint> {
    const reader = this.records.read(labId);
    const made = await makeCheckpoint(reader, await this.trees.of(reader), this.keys.of(labId));
    if (!made) throw new Error('The lab has no ledger, though founding it wrote the first entry.');
    this.#copy(made);
    return made;
  }

  async #isDue(labId: string, now: number): Promise<boolean> {
    const reader = this.records.read(labId);
    const last = await lastCheckpoint(reader);
    const { size } = await this.trees.of(reader);
    const since = size - (last?.size ?? 0);
    return since >= MOST_ENTRIES || (since > 0 && now - (last?.at.getTime() ?? 0) >= LONGEST);
  }

  #copy({ labId, size, note }: tables.LedgerCheckpoint): void {
    if (this.copies === undefined) return;
    try {
      fs.mkdirSync(this.copies, { recursive: true });
      fs.writeFileSync(path.join(this.copies, `ledger-${labId}-${size}.txt`), note, { flag: 'wx' });
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code === 'EEXIST') return;
      this.#log.error(error, `The copy of a checkpoint could not be written to ${this.copies}.`);
    }
  }
}
