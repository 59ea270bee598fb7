import { Key, Reference } from '@breakbook/lab';
import { Records, tables } from '@breakbook/records';
import { Body, Controller, Get, Param, Post, Query, UseInterceptors } from '@nestjs/common';
import { z } from 'zod';
import { hiddenFrom } from '../comparisons/blinds.js';
import { parsedBy } from '../http/parsed-by.js';
import { queriedBy } from '../http/queried-by.js';
import { VersionTag } from '../http/version-tag.interceptor.js';
import { Answers } from '../openapi/answers.decorator.js';
import { completed } from '../records/completed.js';
import {
  type Change,
  changeTo,
  type Kept,
  type KeptVersion,
  keptOf,
  type PageOf,
  pageOf,
  versionOf,
} from '../records/kept.js';
import { PAGING, Paging } from '../records/paging.js';
import { keptAs, keptHistory, keptOne, keptPage, keptRevision } from '../records/read-kind.js';
import { within } from '../records/within.js';
import { addRevision, define } from '../records/write-kind.js';
import { Duty } from '../sign-in/duty.decorator.js';
import { SignedIn, type SignedInActor } from '../sign-in/signed-in.decorator.js';
import { REFERENCE } from './reference-kind.js';
import { veiledUnits } from './veiled-units.js';

const { chosenBy: _chosenBy, frozenAt: _frozenAt, ...fields } = Reference.shape;
/** A reference as it is chosen; by whom and when is added as it is frozen. */
const NewReference = z.strictObject(fields);
type NewReference = z.infer<typeof NewReference>;

const ReferencesAsked = z.strictObject({ ...PAGING, product: Key.optional() });
type ReferencesAsked = z.infer<typeof ReferencesAsked>;

const KeptReference = keptOf(Reference);

/** Sets of specimens of known making, frozen with the instant at which they were chosen. */
@Controller('api/references')
@UseInterceptors(VersionTag)
export class ReferencesController {
  constructor(private readonly records: Records) {}

  @Get()
  @Duty('signed in')
  @Answers('References, each in its last revision; of one product where it is named', pageOf(KeptReference))
  async list(
    @Query(queriedBy(ReferencesAsked)) { product, ...paging }: ReferencesAsked,
    @SignedIn() by: SignedInActor,
  ): Promise<PageOf<Kept<Reference>>> {
    const reader = this.records.read(by.labId);
    const where = await within<tables.Reference, tables.Product>(reader, tables.Product, 'product', product);
    const page = await keptPage(reader, REFERENCE, paging, where);
    return { ...page, items: veiledUnits(page.items, await hiddenFrom(reader, by)) };
  }

  @Get(':reference')
  @Duty('signed in')
  @Answers('One reference in its last revision', KeptReference)
  async one(@Param('reference') reference: string, @SignedIn() by: SignedInActor): Promise<Kept<Reference>> {
    const reader = this.records.read(by.labId);
    const kept = await keptOne(reader, REFERENCE, reference);
    return { ...kept, ...veiledUnits([kept], await hiddenFrom(reader, by))[0] };
  }

  @Get(':reference/revisions')
  @Duty('signed in')
  @Answers('Every revision of a reference', pageOf(versionOf(Reference)))
  async revisions(
    @Param('reference') reference: string,
    @Query(queriedBy(Paging)) paging: Paging,
    @SignedIn() by: SignedInActor,
  ): Promise<PageOf<KeptVersion<Reference>>> {
    const reader = this.records.read(by.labId);
    const page = await keptHistory(reader, REFERENCE, reference, paging);
    return { ...page, items: veiledUnits(page.items, await hiddenFrom(reader, by)) };
  }

  @Get(':reference/revisions/:revision')
  @Duty('signed in')
  @Answers('One revision of a reference', versionOf(Reference))
  async revision(
    @Param('reference') reference: string,
    @Param('revision') revision: string,
    @SignedIn() by: SignedInActor,
  ): Promise<KeptVersion<Reference>> {
    const reader = this.records.read(by.labId);
    const kept = await keptRevision(reader, REFERENCE, reference, revision);
    return { ...kept, ...veiledUnits([kept], await hiddenFrom(reader, by))[0] };
  }

  @Post()
  @Duty('define')
  @Answers('Choose specimens of known making as a reference, and freeze it', KeptReference)
  choose(@Body(parsedBy(NewReference)) chosen: NewReference, @SignedIn() by: SignedInActor): Promise<Kept<Reference>> {
    return this.records.change(by, 'reference frozen', async (rows) =>
      keptAs(rows, REFERENCE, await define(rows, REFERENCE, frozen(chosen, by, rows.at))),
    );
  }

  @Post(':reference/revisions')
  @Duty('define')
  @Answers('Choose otherwise: the next revision of a reference, frozen; the earlier ones stay', KeptReference)
  revise(
    @Param('reference') reference: string,
    @Body(parsedBy(changeTo(NewReference))) { content, reason }: Change<NewReference>,
    @SignedIn() by: SignedInActor,
  ): Promise<Kept<Reference>> {
    return this.records.change(by, 'reference revised', reason, async (rows) => {
      const whole = frozen(content, by, rows.at, 'content');
      return keptAs(rows, REFERENCE, await addRevision(rows, REFERENCE, reference, whole));
    });
  }
}

function frozen(chosen: NewReference, { person }: SignedInActor, at: Date, field?: 'content'): Reference {
  return completed(Reference, { ...chosen, chosenBy: person, frozenAt: at.toISOString() }, field);
}
