import { useQuery } from '@tanstack/react-query';
import type { ReactNode } from 'react';
import { useParams, useSearchParams } from 'react-router';
import { comparisonQuery } from '../../../client/comparison-queries.js';
import { HeadStrip, Sheet } from '../../../parts/sheet/sheet.js';
import { Reading, Trouble } from '../../../parts/trouble.js';
import { useMe } from '../../people/me.js';
import { DeclareForm } from './declare-form.js';

/** A comparison is declared before anything is tested. */
export function DeclareComparisonPage() {
  const [search] = useSearchParams();
  return (
    <Sheet title="Declare a comparison">
      <HeadStrip
        noun=""
        name="Declare a comparison"
        sentence="What is compared with what, in which characteristics and how surely: written down before anything is tested, so that nothing is chosen for what it showed."
      />
      <IfMayDefine>
        <DeclareForm known={{ product: search.get('product') ?? '', reference: search.get('reference') ?? '' }} />
      </IfMayDefine>
    </Sheet>
  );
}

/** It is declared anew: a further revision beside the one before. */
export function DeclareAnewPage() {
  const { comparison = '' } = useParams();
  const { data, error, refetch } = useQuery(comparisonQuery(comparison));
  return (
    <Sheet title={`Comparison ${comparison}, declared anew`}>
      {data ? (
        <>
          <HeadStrip
            noun="Comparison"
            name={comparison}
            of={`rev. ${data.revision + 1}`}
            sentence="What was declared before stays and shows. Whoever reads the report sees both, the reason, and what of the items had been seen by then."
          />
          <IfMayDefine>
            <DeclareForm known={{ product: data.product, reference: '' }} before={data.content} />
          </IfMayDefine>
        </>
      ) : error ? (
        <Trouble error={error} onAgain={() => void refetch()} />
      ) : (
        <Reading what={`comparison ${comparison}`} />
      )}
    </Sheet>
  );
}

function IfMayDefine({ children }: { children: ReactNode }) {
  const { duties } = useMe();
  return duties.includes('define') ? (
    children
  ) : (
    <p className="nothing">A comparison is declared by somebody with the duty to define. You do not have it.</p>
  );
}
