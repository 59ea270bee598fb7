import { Instant, Key, movesFrom, Paragraph, Refusal, SPECIMEN_STATES } from '@breakbook/lab';
import { type Reader, Records, tables } from '@breakbook/records';
import { Body, Controller, Get, HttpCode, Param, Post, UseInterceptors } from '@nestjs/common';
import { z } from 'zod';
import { IfMatch } from '../http/if-match.decorator.js';
import { parsedBy } from '../http/parsed-by.js';
import { VersionTag } from '../http/version-tag.interceptor.js';
import { Answers } from '../openapi/answers.decorator.js';
import { peopleBehind } from '../records/read-kind.js';
import { Duty } from '../sign-in/duty.decorator.js';
import { SignedIn, type SignedInActor } from '../sign-in/signed-in.decorator.js';
import { Fate, fateOf, moveSpecimen } from './specimen-fate.js';

const SaidMove = z.enum(['condition', 'make ready', 'retain', 'take out']);

/** A move, and what is to be said of it: how it was conditioned, where it is kept, why it is taken out. */
const NewState = z.strictObject({ move: SaidMove, note: Paragraph });
type NewState = z.infer<typeof NewState>;

const SpecimenStates = Fate.extend({
  specimen: Key,
  /** To be given back in If-Match with the next move. */
  version: z.number().int().min(1),
  /** The moves there are from its state. */
  moves: z.array(SaidMove),
  /** The states that people put it in, the first one first. */
  items: z.array(z.strictObject({ state: z.enum(SPECIMEN_STATES.states), note: Paragraph, by: Key, at: Instant })),
});
type SpecimenStates = z.infer<typeof SpecimenStates>;

/** In which state specimens are, by the table of their states. */
@Controller('api/specimens/:specimen/states')
@UseInterceptors(VersionTag)
export class SpecimenStatesController {
  constructor(private readonly records: Records) {}

  @Get()
  @Duty('signed in')
  @Answers('In which state a specimen is, how it came there, and what can be done with it', SpecimenStates)
  one(@Param('specimen') specimen: string, @SignedIn() by: SignedInActor): Promise<SpecimenStates> {
    return statesOf(this.records.read(by.labId), specimen);
  }

  @Post()
  @HttpCode(200)
  @Duty('draw', 'record', 'decide')
  @Answers('Put a specimen in another state', SpecimenStates)
  move(
    @Param('specimen') specimen: string,
    @IfMatch() seen: number,
    @Body(parsedBy(NewState)) { move, note }: NewState,
    @SignedIn() by: SignedInActor,
  ): Promise<SpecimenStates> {
    requireDuty(by, move);
    return this.records.change(by, `specimen: ${move}`, note, async (rows) => {
      await moveSpecimen(rows, await rows.named(tables.Specimen, specimen), { move, note }, seen - 1);
      return statesOf(rows, specimen);
    });
  }
}

function requireDuty({ duties }: SignedInActor, move: z.infer<typeof SaidMove>): void {
  const { who } = SPECIMEN_STATES.moves[move];
  if (who !== 'itself' && who.some((duty) => duties.includes(duty))) return;
  throw new Refusal({
    code: 'auth.forbidden',
    pointer: '/move',
    found: move,
    detail: `/move: to ${move} a specimen needs one of the duties ${[...who].join(', ')}.`,
    action: 'Ask somebody who has one of them.',
  });
}

async function statesOf(reader: Reader, key: string): Promise<SpecimenStates> {
  const specimen = await reader.named(tables.Specimen, key);
  const said = await reader.history(tables.SpecimenState, specimen.id);
  const fate = await fateOf(reader, specimen.id);
  const people = await peopleBehind(reader, said);
  return {
    ...fate,
    specimen: specimen.key,
    version: said.length + 1,
    moves: movesFrom(SPECIMEN_STATES, fate.state).filter(
      (move): move is z.infer<typeof SaidMove> => SaidMove.safeParse(move).success,
    ),
    items: said.map(({ state, note, personId, at }) => ({
      state,
      note,
      by: people.get(personId) ?? '',
      at: at.toISOString(),
    })),
  };
}
