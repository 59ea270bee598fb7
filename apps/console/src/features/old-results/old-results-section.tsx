import { OLD_RESULT_MARK, OLD_RESULTS_COUNT_NOWHERE } from '@breakbook/lab';
import { useQuery } from '@tanstack/react-query';
import { oldResultsBesideQuery } from '../../client/queries.js';
import { FormProblem } from '../../parts/field.js';
import { Section } from '../../parts/sheet/sheet.js';
import { ResultsTable } from './results-table.js';

/** What tables of earlier days tell of a lot or a product; left out where none does. */
export function OldResultsSection({ of, named }: { of: 'lots' | 'products'; named: string }) {
  const { data, error } = useQuery(oldResultsBesideQuery(of, named));
  if (error) return <FormProblem error={error} />;
  if (!data || data.items.length === 0) return null;
  return (
    <Section
      question="What do tables of earlier days tell?"
      word="Old results"
      aside={`Each is ${OLD_RESULT_MARK}. ${OLD_RESULTS_COUNT_NOWHERE}`}
    >
      <ResultsTable caption="Old results, as told" results={data.items} />
    </Section>
  );
}
