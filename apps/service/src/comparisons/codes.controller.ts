import { Instant, Key, Paragraph, Refusal } from '@breakbook/lab';
import { type Reader, Records, tables, withheldTexts, withhold } from '@breakbook/records';
import { Body, Controller, Get, Param, Post } from '@nestjs/common';
import { z } from 'zod';
import { parsedBy } from '../http/parsed-by.js';
import { Answers } from '../openapi/answers.decorator.js';
import { Names } from '../records/names.js';
import { peopleBehind } from '../records/read-kind.js';
import { Duty } from '../sign-in/duty.decorator.js';
import { SignedIn, type SignedInActor } from '../sign-in/signed-in.decorator.js';
import { HIDDEN } from './blinds.js';
import { type ComparisonStanding, heldComparison, standingOf } from './comparison-standing.js';

/** Which item a code stands for, such as "bought at the market of Grayford, second stall". */
const Codes = z.strictObject({
  codes: z
    .array(z.strictObject({ code: Key, identity: Paragraph }))
    .min(1)
    .max(1000),
});
type Codes = z.infer<typeof Codes>;

const CodeLists = z.strictObject({
  /** Each list that was kept; the last one holds. */
  items: z.array(Codes.extend({ by: Key, at: Instant })),
});
type CodeLists = z.infer<typeof CodeLists>;

/** Which code stands for which item: kept by one person, and read by nobody else before conclusions are locked. */
@Controller('api/comparisons/:comparison/codes')
export class CodesController {
  constructor(private readonly records: Records) {}

  @Get()
  @Duty('signed in')
  @Answers(
    'Which code stands for which item; before conclusions are locked for whoever keeps the list alone',
    CodeLists,
  )
  async read(@Param('comparison') comparison: string, @SignedIn() by: SignedInActor): Promise<CodeLists> {
    const reader = this.records.read(by.labId);
    const standing = await standingOf(reader, await reader.named(tables.Comparison, comparison));
    if (standing.state !== 'concluded') requireKeeper(standing, by);
    return listsOf(reader, standing);
  }

  @Post()
  @Duty('define', 'draw', 'trace', 'compare')
  @Answers('Keep the list of which code stands for which item', CodeLists)
  keep(
    @Param('comparison') comparison: string,
    @Body(parsedBy(Codes)) { codes }: Codes,
    @SignedIn() by: SignedInActor,
  ): Promise<CodeLists> {
    return this.records.change(by, 'list of codes kept', async (rows) => {
      const standing = await heldComparison(rows, comparison);
      requireKeeper(standing, by);
      const names = new Names(rows, '');
      for (const [index, { code }] of codes.entries()) await names.of(tables.Specimen, code, `/codes/${index}/code`);
      names.refuse();
      const comparisonId = standing.noun.id;
      await rows.add(tables.CodeList, { comparisonId, ...(await withhold(rows, { codes })) });
      return listsOf(rows, standing);
    });
  }
}

async function listsOf(reader: Reader, { noun }: ComparisonStanding): Promise<CodeLists> {
  const rows = await reader.find(tables.CodeList, { comparisonId: noun.id });
  const texts = await withheldTexts<Codes>(reader, rows);
  const people = await peopleBehind(reader, rows);
  return {
    items: rows.map(({ personId, at }, index) => ({
      codes: texts[index]?.codes ?? [],
      by: people.get(personId) ?? '',
      at: at.toISOString(),
    })),
  };
}

/** The list is theirs whom the last revision names, or that by which items are examined. */
function requireKeeper(
  { noun, last, inForce }: Pick<ComparisonStanding, 'noun' | 'last' | 'inForce'>,
  { person }: SignedInActor,
): void {
  const keepers = [last, inForce].flatMap((one) => one?.content.blind?.listKeptBy ?? []);
  if (keepers.includes(person)) return;
  throw new Refusal({
    code: 'auth.forbidden',
    detail:
      keepers.length === 0
        ? `Comparison ${noun.key} is not blind, so there is no list of codes.`
        : `Which code of comparison ${noun.key} stands for which item is ${HIDDEN}; ${keepers[0]} keeps the list.`,
    action: 'Wait until conclusions are locked.',
  });
}
