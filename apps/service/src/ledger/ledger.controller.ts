import { Refusal } from '@breakbook/lab';
import { type RawStore, Records, type RecordsBroken, type RecordsHold, verifyRecords } from '@breakbook/records';
import { Controller, Get, HttpCode, Inject, Param, Post, Query } from '@nestjs/common';
import { refuseBlindedEntry } from '../comparisons/blinds.js';
import { queriedBy } from '../http/queried-by.js';
import { Answers } from '../openapi/answers.decorator.js';
import { type PageOf, pageOf } from '../records/kept.js';
import { Paging } from '../records/paging.js';
import { RAW_STORE } from '../records/raw-store.token.js';
import { Duty } from '../sign-in/duty.decorator.js';
import { SignedIn, type SignedInActor } from '../sign-in/signed-in.decorator.js';
import { EntryInFull, EntryInList, Head, Verification } from './ledger-answers.js';
import { entriesPage, entryInFull, headOf } from './read-ledger.js';

/** Every change of the lab, one entry each, each chained to the one before. */
@Controller('api/ledger')
export class LedgerController {
  /** Verification reads every row and byte, so it is done once at a time. */
  private verifying = false;

  constructor(
    private readonly records: Records,
    @Inject(RAW_STORE) private readonly store: RawStore,
  ) {}

  @Get()
  @Duty('signed in')
  @Answers('Entries of the ledger', pageOf(EntryInList))
  list(@Query(queriedBy(Paging)) paging: Paging, @SignedIn() by: SignedInActor): Promise<PageOf<EntryInList>> {
    return entriesPage(this.records.read(by.labId), paging);
  }

  @Get('head')
  @Duty('signed in')
  @Answers('The last entry: noted elsewhere, it shows later that none was taken away', Head)
  head(@SignedIn() by: SignedInActor): Promise<Head> {
    return headOf(this.records.read(by.labId));
  }

  @Get(':sequence')
  @Duty('signed in')
  @Answers('One entry, with the text that is hashed', EntryInFull)
  async one(@Param('sequence') sequence: string, @SignedIn() by: SignedInActor): Promise<EntryInFull> {
    const reader = this.records.read(by.labId);
    const entry = await entryInFull(reader, sequence);
    await refuseBlindedEntry(reader, by, entry);
    return entry;
  }

  @Post('verification')
  @HttpCode(200)
  @Duty('audit')
  @Answers('Is everything as it was written? Every entry, row and kept byte is read', Verification)
  async verify(@SignedIn() by: SignedInActor): Promise<RecordsHold | RecordsBroken> {
    if (this.verifying)
      throw new Refusal({
        code: 'service.busy',
        detail: 'The records are being verified for somebody already.',
        action: 'Try again when that has ended.',
      });
    this.verifying = true;
    try {
      return await verifyRecords(this.records.read(by.labId), this.store);
    } finally {
      this.verifying = false;
    }
  }
}
