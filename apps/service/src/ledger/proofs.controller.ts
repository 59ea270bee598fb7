import { checkConsistency, formatNoteKey, type MerkleTree, openCheckpoint, parseNoteKey } from '@breakbook/evidence';
import { Refusal, shown } from '@breakbook/lab';
import { LedgerKeys, LedgerTrees, type Reader, Records, tables, whyNotBeginning } from '@breakbook/records';
import { Body, Controller, Get, HttpCode, Param, Post, Query } from '@nestjs/common';
import { LessThan, MoreThan } from 'typeorm';
import { parsedBy } from '../http/parsed-by.js';
import { parameterProblem, queriedBy } from '../http/queried-by.js';
import { Answers } from '../openapi/answers.decorator.js';
import { type PageOf, pageOf } from '../records/kept.js';
import { nextPlace, Paging, pageAsked } from '../records/paging.js';
import { Duty } from '../sign-in/duty.decorator.js';
import { SignedIn, type SignedInActor } from '../sign-in/signed-in.decorator.js';
import { CheckpointKeeper } from './checkpoint-keeper.js';
import {
  CheckpointAnswer,
  CheckpointCompared,
  CheckpointKept,
  ConsistencyAnswer,
  ConsistencyAsked,
  InclusionAnswer,
  LedgerKeyAnswer,
  SizeAsked,
} from './proof-answers.js';
import { entryInFull } from './read-ledger.js';

/** Signed checkpoints of the ledger, and the proofs that an entry is in it and that it only ever grew. */
@Controller('api/ledger')
export class ProofsController {
  constructor(
    private readonly records: Records,
    private readonly trees: LedgerTrees,
    private readonly keys: LedgerKeys,
    private readonly keeper: CheckpointKeeper,
  ) {}

  @Get('key')
  @Duty('signed in')
  @Answers('The public key that opens the checkpoints of the ledger', LedgerKeyAnswer)
  key(@SignedIn() by: SignedInActor): LedgerKeyAnswer {
    const key = this.keys.of(by.labId);
    return { origin: key.name, key: formatNoteKey(key) };
  }

  @Get('checkpoints')
  @Duty('signed in')
  @Answers('Signed checkpoints: how far the ledger had grown', pageOf(CheckpointAnswer))
  async checkpoints(
    @Query(queriedBy(Paging)) paging: Paging,
    @SignedIn() by: SignedInActor,
  ): Promise<PageOf<CheckpointAnswer>> {
    const { after, descending, limit } = pageAsked(paging, 'size');
    const place = after === undefined ? {} : { size: descending ? LessThan(after) : MoreThan(after) };
    const found = await this.records.read(by.labId).manager.find(tables.LedgerCheckpoint, {
      where: { labId: by.labId, ...place },
      order: { size: descending ? 'desc' : 'asc' },
      take: limit + 1,
    });
    const items = found.slice(0, limit).map(answered);
    return { items, next: nextPlace(items.at(-1)?.size, found.length > limit) };
  }

  @Post('checkpoints')
  @Duty('audit', 'administer')
  @HttpCode(200)
  @Answers('Sign how far the ledger has grown: the note is kept where the lab cannot reach it', CheckpointAnswer)
  async sign(@SignedIn() by: SignedInActor): Promise<CheckpointAnswer> {
    return answered(await this.keeper.sign(by.labId));
  }

  @Post('checkpoints/comparison')
  @Duty('signed in')
  @HttpCode(200)
  @Answers('Does the ledger still begin as this checkpoint says, which was kept elsewhere?', CheckpointCompared)
  async compare(
    @Body(parsedBy(CheckpointKept)) kept: CheckpointKept,
    @SignedIn() by: SignedInActor,
  ): Promise<CheckpointCompared> {
    const { size, root } = opened(kept);
    const tree = await this.trees.of(this.records.read(by.labId));
    const now = { size: tree.size, root: tree.root() };
    const because = whyNotBeginning(by.labId, tree, kept);
    if (because) return { holds: false, earlier: { size, root }, now, because };
    const proof = tree.proveConsistency(size);
    if (!checkConsistency({ earlier: { size, root }, later: now }, proof))
      throw new Error('A proof of consistency was made that does not show it.');
    return { holds: true, earlier: { size, root }, now, proof };
  }

  @Get('consistency')
  @Duty('signed in')
  @Answers('The proof that the ledger of one size is a beginning of the ledger of another', ConsistencyAnswer)
  async consistency(
    @Query(queriedBy(ConsistencyAsked)) { from, to }: ConsistencyAsked,
    @SignedIn() by: SignedInActor,
  ): Promise<ConsistencyAnswer> {
    const tree = await this.trees.of(this.records.read(by.labId));
    const later = sizeWithin(tree, 'to', to);
    if (from > later)
      throw new Refusal(parameterProblem('from', `must not be greater than the later size, ${later}.`, `${from}`));
    return {
      earlier: { size: from, root: tree.root(from) },
      later: { size: later, root: tree.root(later) },
      proof: tree.proveConsistency(from, later),
    };
  }

  @Get(':sequence/proof')
  @Duty('signed in')
  @Answers('The proof that an entry is in the ledger', InclusionAnswer)
  async inclusion(
    @Param('sequence') sequence: string,
    @Query(queriedBy(SizeAsked)) asked: SizeAsked,
    @SignedIn() by: SignedInActor,
  ): Promise<InclusionAnswer> {
    const reader: Reader = this.records.read(by.labId);
    const entry = await entryInFull(reader, sequence);
    const tree = await this.trees.of(reader);
    const size = sizeWithin(tree, 'size', asked.size);
    const leaf = entry.sequence - 1;
    if (leaf >= size)
      throw new Refusal(
        parameterProblem('size', `must be at least ${entry.sequence}, to have the entry in it.`, `${size}`),
      );
    return {
      text: entry.text,
      hash: entry.hash,
      leaf,
      size,
      root: tree.root(size),
      proof: tree.proveInclusion(leaf, size),
    };
  }
}

function answered({ at, size, root, key, note }: tables.LedgerCheckpoint): CheckpointAnswer {
  return { at: at.toISOString(), size, root, key, note };
}

function sizeWithin(tree: MerkleTree, parameter: string, size = tree.size): number {
  if (size <= tree.size) return size;
  throw new Refusal(
    parameterProblem(parameter, `must not be greater than the ledger, which has ${tree.size} entries.`, `${size}`),
  );
}

/** What the note says, where it is one of this key. */
function opened({ note, key }: CheckpointKept): { size: number; root: string } {
  try {
    return openCheckpoint(note, parseNoteKey(key));
  } catch (error) {
    throw new Refusal({
      code: 'body.format',
      pointer: '/note',
      detail: `This is no checkpoint that this key signed: ${(error as Error).message}`,
      found: shown(note),
      expected: 'a signed note as it was handed out, and the key that stood beside it',
      action: 'Send the whole text of the note, its last line feed too, with the key it was signed with.',
    });
  }
}
