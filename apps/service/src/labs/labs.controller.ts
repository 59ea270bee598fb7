import { isZone, Lab, Refusal } from '@breakbook/lab';
import { type Page, type Reader, Records, tables } from '@breakbook/records';
import { Body, Controller, Get, Param, Put, Query, UseInterceptors } from '@nestjs/common';
import { z } from 'zod';
import { IfMatch } from '../http/if-match.decorator.js';
import { parsedBy } from '../http/parsed-by.js';
import { queriedBy } from '../http/queried-by.js';
import { VersionTag } from '../http/version-tag.interceptor.js';
import { Answers } from '../openapi/answers.decorator.js';
import { type Change, changeTo, type KeptVersion, type PageOf, pageOf, versionOf } from '../records/kept.js';
import { nextPlace, Paging, pageAsked } from '../records/paging.js';
import { peopleBehind, saidBy } from '../records/read-kind.js';
import { Again, Duty } from '../sign-in/duty.decorator.js';
import { SignedIn, type SignedInActor } from '../sign-in/signed-in.decorator.js';

const KeptLab = versionOf(Lab);
const Labs = z.strictObject({ items: z.array(KeptLab) });

/** The lab somebody signed in to. Others are not there for them. */
@Controller('api/labs')
@UseInterceptors(VersionTag)
export class LabsController {
  constructor(private readonly records: Records) {}

  @Get()
  @Duty('signed in')
  @Answers('The lab you work in', Labs)
  async list(@SignedIn() by: SignedInActor): Promise<{ items: KeptVersion<Lab>[] }> {
    const reader = this.records.read(by.labId);
    return { items: [await asAnswered(reader, await reader.latest(tables.LabVersion, by.labId))] };
  }

  @Get(':lab')
  @Duty('signed in')
  @Answers('One lab', KeptLab)
  async one(@Param('lab') key: string, @SignedIn() by: SignedInActor): Promise<KeptVersion<Lab>> {
    const reader = this.records.read(by.labId);
    const lab = await labNamed(reader, key);
    return asAnswered(reader, await reader.latest(tables.LabVersion, lab.id));
  }

  @Get(':lab/history')
  @Duty('signed in')
  @Answers('Everything that was said of a lab', pageOf(KeptLab))
  async history(
    @Param('lab') key: string,
    @Query(queriedBy(Paging)) paging: Paging,
    @SignedIn() by: SignedInActor,
  ): Promise<PageOf<KeptVersion<Lab>>> {
    const reader = this.records.read(by.labId);
    const lab = await labNamed(reader, key);
    const page: Page<tables.LabVersion> = pageAsked(paging, 'version');
    const { rows, more } = await reader.page(tables.LabVersion, { recordId: lab.id }, page);
    const people = await peopleBehind(reader, rows);
    return { items: rows.map((one) => withPeople(one, people)), next: nextPlace(rows.at(-1)?.version, more) };
  }

  @Put(':lab')
  @Duty('administer')
  @Again()
  @Answers('Say something else of a lab: its address, its zone, who needs a second factor', KeptLab)
  async change(
    @Param('lab') key: string,
    @IfMatch() follows: number,
    @Body(parsedBy(changeTo(Lab))) { content, reason }: Change<Lab>,
    @SignedIn() by: SignedInActor,
  ): Promise<KeptVersion<Lab>> {
    const lab = await labNamed(this.records.read(by.labId), key);
    refuseUnfit(content, key);
    return this.records.change(by, 'lab changed', reason, async (rows) =>
      asAnswered(rows, await rows.addVersion(tables.LabVersion, lab.id, { content }, follows)),
    );
  }
}

async function labNamed(reader: Reader, key: string): Promise<tables.Lab> {
  const lab = await reader.one(tables.Lab, reader.labId);
  if (lab.key === key) return lab;
  throw new Refusal({ code: 'request.not-found', detail: 'There is no such lab, or it is not yours to see.' });
}

async function asAnswered(reader: Reader, version: tables.LabVersion): Promise<KeptVersion<Lab>> {
  return withPeople(version, await peopleBehind(reader, [version]));
}

function withPeople(version: tables.LabVersion, people: ReadonlyMap<string, string>): KeptVersion<Lab> {
  return { ...saidBy(version, people), content: version.content };
}

function refuseUnfit({ lab, zone }: Lab, key: string): void {
  if (lab !== key)
    throw new Refusal({
      code: 'state.conflict',
      pointer: '/content/lab',
      found: lab,
      expected: key,
      detail: `/content/lab: the address is that of lab ${key}. A lab keeps its name.`,
    });
  if (!isZone(zone))
    throw new Refusal({
      code: 'body.format',
      pointer: '/content/zone',
      found: zone,
      detail: `/content/zone: ${zone} is no zone of the time-zone database. Write one such as Europe/Lisbon.`,
    });
}
