import type { PlanTemplate } from '@breakbook/lab';
import { printPercent } from '@breakbook/units';
import { useQuery } from '@tanstack/react-query';
import { Link } from 'react-router';
import { templatesQuery } from '../../client/queries.js';
import { writePlanAddress } from '../../parts/addresses.js';
import { capital } from '../../parts/capital.js';
import { Section } from '../../parts/sheet/sheet.js';
import { Table } from '../../parts/table.js';
import { Reading, Trouble } from '../../parts/trouble.js';

/** Drafts for the three tests, and what each asks for. */
export function TemplatesSection() {
  const templates = useQuery(templatesQuery);
  if (templates.error) return <Trouble error={templates.error} onAgain={() => void templates.refetch()} />;
  if (!templates.data) return <Reading what="the templates" />;
  return (
    <Section
      question="Which drafts are there to begin with?"
      word="Drafts"
      aside='A draft is filled with product, method and limits, here or by "breakbook plan --template", and then proposed.'
    >
      <Table<PlanTemplate>
        caption="Drafts of plans"
        columns={[
          {
            head: 'Draft',
            cell: ({ template }) => <Link to={writePlanAddress({ template })}>{capital(template)}</Link>,
          },
          { head: 'What it is', wide: true, cell: ({ about }) => about },
          { head: 'Specimens', number: true, cell: ({ specimens }) => specimens },
          {
            head: 'Claim',
            cell: ({ coverage, confidence }) => `${printPercent(coverage)}, ${printPercent(confidence)} sure`,
          },
          {
            head: 'Limits it takes',
            wide: true,
            cell: ({ limits }) =>
              limits
                .map(({ place, about, needed }) => `${place}: ${about}${needed ? '' : ' (may be left out)'}`)
                .join('. '),
          },
        ]}
        rows={templates.data}
        rowKey={({ template }) => template}
        empty="No draft."
      />
    </Section>
  );
}
