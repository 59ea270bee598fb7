import { type PhotosOfThing, photosMissing } from '@breakbook/lab';
import { Outcome } from '../../../parts/marks/outcome.js';
import { Table } from '../../../parts/table.js';

/** Photos that the failure modes found ask for, and how many of each are there. */
export function AskedPhotosList({ asked }: { asked: readonly PhotosOfThing[] }) {
  if (asked.length === 0) return null;
  const missing = photosMissing(asked);
  return (
    <Table<PhotosOfThing>
      caption="Photos that the failure mode asks for"
      columns={[
        { head: 'Of', wide: true, cell: ({ of }) => of },
        { head: 'At least', number: true, cell: ({ least }) => least },
        { head: 'There', number: true, cell: ({ present }) => present },
        {
          head: 'Standing',
          cell: (one) =>
            missing.includes(one) ? <Outcome word="not met" as="missing" /> : <Outcome word="met" as="there" />,
        },
      ]}
      rows={asked}
      rowKey={({ of }) => of}
      empty=""
    />
  );
}

/** What a photo can be said to be: one of those asked for, or another. */
export function photoChoices(asked: readonly PhotosOfThing[]): { value: string; word: string }[] {
  return [{ value: '', word: 'another photo' }, ...asked.map(({ of }) => ({ value: of, word: of }))];
}
