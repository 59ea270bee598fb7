import { Instant, Key, Line, Paragraph, Refusal } from '@breakbook/lab';
import { type Reader, Records, tables, withheldTexts, withhold } from '@breakbook/records';
import { Body, Controller, Get, Param, Post } from '@nestjs/common';
import { In } from 'typeorm';
import { z } from 'zod';
import { parsedBy } from '../http/parsed-by.js';
import { Answers } from '../openapi/answers.decorator.js';
import { Names } from '../records/names.js';
import { peopleBehind } from '../records/read-kind.js';
import { Duty } from '../sign-in/duty.decorator.js';
import { SignedIn, type SignedInActor } from '../sign-in/signed-in.decorator.js';

/** A note that nobody reads but whom it names, such as of a feature that must not become known. */
const NewProtectedNote = z.strictObject({ title: Line, text: Paragraph, readers: z.array(Key).min(1).max(50) });
type NewProtectedNote = z.infer<typeof NewProtectedNote>;

const ProtectedNotes = z.strictObject({
  specimen: Key,
  items: z.array(NewProtectedNote.extend({ by: Key, at: Instant })),
});
type ProtectedNotes = z.infer<typeof ProtectedNotes>;

/** Notes of a specimen that only some may read. To everybody else there are none, whatever their duties. */
@Controller('api/specimens/:specimen/protected-notes')
export class ProtectedNotesController {
  constructor(private readonly records: Records) {}

  @Get()
  @Duty('signed in')
  @Answers('Protected notes of a specimen that name you as a reader; to everybody else there are none', ProtectedNotes)
  async read(@Param('specimen') specimen: string, @SignedIn() by: SignedInActor): Promise<ProtectedNotes> {
    const reader = this.records.read(by.labId);
    await reader.named(tables.Specimen, specimen);
    const items = await notesFor(reader, specimen, by.person);
    if (items.length > 0) return { specimen, items };
    throw new Refusal({
      code: 'request.not-found',
      detail: `There is no protected note of specimen ${specimen} that names you as a reader.`,
    });
  }

  @Post()
  @Duty('define', 'record', 'compare')
  @Answers('Write a protected note of a specimen: readable by the people it names, and by nobody else', ProtectedNotes)
  write(
    @Param('specimen') specimen: string,
    @Body(parsedBy(NewProtectedNote)) note: NewProtectedNote,
    @SignedIn() by: SignedInActor,
  ): Promise<ProtectedNotes> {
    return this.records.change(by, 'protected note written', async (rows) => {
      await rows.named(tables.Specimen, specimen);
      const names = new Names(rows, '');
      for (const [index, reader] of note.readers.entries()) await names.person(reader, `/readers/${index}`);
      names.refuse();
      await rows.add(tables.ProtectedNote, await withhold(rows, { ...note, specimen }));
      return { specimen, items: [{ ...note, by: by.person, at: rows.at.toISOString() }] };
    });
  }
}

async function notesFor(reader: Reader, specimen: string, person: string): Promise<ProtectedNotes['items']> {
  const found = await reader.manager.query<{ id: string }[]>(
    `select note.id from protected_note note
     join withheld_text kept on kept.lab_id = note.lab_id and kept.id = note.id
     where note.lab_id = $1 and kept.content ->> 'specimen' = $2 and kept.content -> 'readers' @> to_jsonb($3::text)
     order by note.id`,
    [reader.labId, specimen, person],
  );
  const rows = await reader.find(tables.ProtectedNote, { id: In(found.map(({ id }) => id)) });
  const texts = await withheldTexts<NewProtectedNote & { specimen: string }>(reader, rows);
  const people = await peopleBehind(reader, rows);
  return texts.map(({ specimen: _, ...note }, index) => ({
    ...note,
    by: people.get(rows[index]?.personId ?? '') ?? '',
    at: rows[index]?.at.toISOString() ?? '',
  }));
}
