import { SensorPlacement } from '@breakbook/lab';
import { type Reader, Records, tables } from '@breakbook/records';
import { Body, Controller, Get, Param, Post, Put, UseInterceptors } from '@nestjs/common';
import { z } from 'zod';
import { IfMatch } from '../http/if-match.decorator.js';
import { parsedBy } from '../http/parsed-by.js';
import { VersionTag } from '../http/version-tag.interceptor.js';
import { Answers } from '../openapi/answers.decorator.js';
import { type Change, changeTo, type KeptVersion, versionOf } from '../records/kept.js';
import { peopleBehind, saidBy } from '../records/read-kind.js';
import { Duty } from '../sign-in/duty.decorator.js';
import { SignedIn, type SignedInActor } from '../sign-in/signed-in.decorator.js';
import { changePlacement, place, placementsOf } from './placements.js';

/** A placement has no name of the lab's own, so it is spoken of by its id. */
const KeptPlacement = z.strictObject({ placement: z.uuid(), ...versionOf(SensorPlacement).shape });
type KeptPlacement = KeptVersion<SensorPlacement> & { placement: string };

const Placements = z.strictObject({ items: z.array(KeptPlacement) });

/** Which sensor feeds which channel of a rig, from when to when. */
@Controller('api/rigs/:rig/placements')
@UseInterceptors(VersionTag)
export class PlacementsController {
  constructor(private readonly records: Records) {}

  @Get()
  @Duty('signed in')
  @Answers('Where the sensors of a rig sit, and sat', Placements)
  async list(@Param('rig') key: string, @SignedIn() by: SignedInActor): Promise<{ items: KeptPlacement[] }> {
    const reader = this.records.read(by.labId);
    const rig = await reader.named(tables.Rig, key);
    const placements = await placementsOf(reader, rig.id);
    const people = await peopleBehind(reader, placements);
    return { items: placements.map((one) => withPeople(one, people)) };
  }

  @Post()
  @Duty('calibrate')
  @Answers('Place a sensor on a channel', KeptPlacement)
  place(
    @Param('rig') rig: string,
    @Body(parsedBy(SensorPlacement)) placement: SensorPlacement,
    @SignedIn() by: SignedInActor,
  ): Promise<KeptPlacement> {
    return this.records.change(by, 'sensor placed', async (rows) =>
      asAnswered(rows, await place(rows, rig, placement)),
    );
  }

  @Put(':placement')
  @Duty('calibrate')
  @Answers('End or correct a placement', KeptPlacement)
  change(
    @Param('rig') rig: string,
    @Param('placement') placement: string,
    @IfMatch() follows: number,
    @Body(parsedBy(changeTo(SensorPlacement))) { content, reason }: Change<SensorPlacement>,
    @SignedIn() by: SignedInActor,
  ): Promise<KeptPlacement> {
    return this.records.change(by, 'placement changed', reason, async (rows) =>
      asAnswered(rows, await changePlacement(rows, rig, placement, content, follows)),
    );
  }
}

async function asAnswered(reader: Reader, placement: tables.SensorPlacement): Promise<KeptPlacement> {
  return withPeople(placement, await peopleBehind(reader, [placement]));
}

function withPeople(placement: tables.SensorPlacement, people: ReadonlyMap<string, string>): KeptPlacement {
  return { placement: placement.recordId, ...saidBy(placement, people), content: placement.content };
}
