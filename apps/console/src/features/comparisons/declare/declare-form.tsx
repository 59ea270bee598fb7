import type { Comparison, Method, Person, Product } from '@breakbook/lab';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { useNavigate } from 'react-router';
import type { ReferenceRecord } from '../../../client/answers.js';
import { everyReferenceQuery } from '../../../client/comparison-queries.js';
import { methodsInForceQuery, peopleQuery, productsQuery } from '../../../client/queries.js';
import { send } from '../../../client/send.js';
import { useSent } from '../../../client/use-sent.js';
import { comparisonAddress } from '../../../parts/addresses.js';
import { TextArea } from '../../../parts/field.js';
import { ProblemsBeside, ProblemsElsewhere } from '../../../parts/problems-beside.js';
import { Section } from '../../../parts/sheet/sheet.js';
import { ComparedWithSection, QuestionSection } from './compared-section.js';
import { begunDeclaration, contentOf, type Declaration, declarationOf } from './declaration.js';
import { CharacteristicsSection, FeaturesSection, LeftOutSection } from './examined-sections.js';
import { BlindSection, SurelySection } from './surely-sections.js';

/** What every section of the form works on. */
export interface OfDeclaration {
  draft: Declaration;
  set: (said: Partial<Declaration>) => void;
  of: {
    products: readonly Product[];
    references: readonly ReferenceRecord[];
    methods: readonly Method[];
    people: readonly Person[];
  };
  /** It is declared anew: its name and product stay. */
  again: boolean;
}

interface DeclareFormProps {
  known: { product: string; reference: string };
  /** What was declared last, where it is declared anew. */
  before?: Comparison;
}

const LARGEST_SEED = 2147483646;

/** A comparison, filled in section by section and sent as a whole. */
export function DeclareForm({ known, before }: DeclareFormProps) {
  const navigate = useNavigate();
  const of = useOnRecord();
  const [draft, setDraft] = useState<Declaration>(() =>
    before ? declarationOf(before) : begunDeclaration({ ...known, seed: Math.ceil(Math.random() * LARGEST_SEED) }),
  );
  const [why, setWhy] = useState('');
  const sent = useSent({
    send: async (_: undefined) => {
      const content = contentOf(draft, (before?.revision ?? 0) + 1);
      if (before)
        await send('POST /api/comparisons/{comparison}/revisions', {
          path: { comparison: before.comparison },
          body: { content, reason: why.trim() },
        });
      else await send('POST /api/comparisons', { body: content });
      void navigate(comparisonAddress(content.comparison));
    },
    renews: ['comparisons', 'specimen'],
  });
  const section: OfDeclaration = {
    draft,
    set: (said) => setDraft((then) => ({ ...then, ...said })),
    of,
    again: before !== undefined,
  };
  return (
    <form
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        sent.mutate(undefined);
      }}
    >
      <ProblemsBeside error={sent.error} within={before ? '/content' : ''}>
        <QuestionSection {...section} />
        <ComparedWithSection {...section} />
        <CharacteristicsSection {...section} />
        <FeaturesSection {...section} />
        <LeftOutSection {...section} />
        <SurelySection {...section} />
        <BlindSection {...section} />
        <Section question="Is it as you mean it?" word="Declare">
          {before && (
            <TextArea
              label="Why it is declared anew"
              at="/reason"
              hint="Told with both revisions, and with what was seen of the items by now."
              rows={2}
              value={why}
              onChange={({ target }) => setWhy(target.value)}
            />
          )}
          <p>
            After this it never changes. Another person approves it before anything is examined; what is declared anew
            later stands beside it, with its reason.
          </p>
          <ProblemsElsewhere />
          <button type="submit" className="action main" disabled={sent.isPending}>
            Declare {before ? `rev. ${before.revision + 1}` : 'this comparison'}
          </button>
        </Section>
      </ProblemsBeside>
    </form>
  );
}

function useOnRecord(): OfDeclaration['of'] {
  const { data: products = [] } = useQuery(productsQuery);
  const { data: references = [] } = useQuery(everyReferenceQuery);
  const { data: methods = [] } = useQuery(methodsInForceQuery);
  const { data: people = [] } = useQuery(peopleQuery);
  return {
    products: products.map(({ content }) => content),
    references,
    methods: methods.map(({ content }) => content),
    people,
  };
}
