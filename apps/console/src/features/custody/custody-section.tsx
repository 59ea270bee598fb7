import type { Person } from '@breakbook/lab';
import { useQuery } from '@tanstack/react-query';
import { custodyQuery } from '../../client/comparison-queries.js';
import { Fold, Section } from '../../parts/sheet/sheet.js';
import { useMe } from '../people/me.js';
import { CustodyForm } from './custody-form.js';
import { CustodyTable } from './custody-table.js';
import { HiddenFromYou } from './hidden-from-you.js';
import { MAY_NOTE, WriteProtectedNote } from './protected-notes-section.js';

/** Who had a specimen from its receipt on, and what happened to it. */
export function CustodySection({
  specimen,
  people,
  zone,
}: {
  specimen: string;
  people: readonly Person[];
  zone: string;
}) {
  const { duties } = useMe();
  const { data } = useQuery(custodyQuery(specimen));
  if (!data) return null;
  const mayWrite = duties.includes('trace') || duties.includes('draw');
  const mayNote = MAY_NOTE.some((duty) => duties.includes(duty));
  if (data.items.length === 0 && !mayWrite && !mayNote) return null;
  return (
    <Section
      question="Who had it, and what happened to it?"
      word="Custody"
      aside="From its receipt on, each step as it was written down then."
    >
      {data.hiddenFromYou && <HiddenFromYou />}
      <CustodyTable of={data} people={people} zone={zone} />
      {mayWrite && (
        <Fold word="Write a step down">
          <CustodyForm key={data.items.length} specimen={specimen} last={data.items.at(-1)} zone={zone} />
        </Fold>
      )}
      {mayNote && <WriteProtectedNote specimen={specimen} people={people} />}
    </Section>
  );
}
