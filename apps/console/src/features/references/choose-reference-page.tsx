import { useQuery } from '@tanstack/react-query';
import { useParams, useSearchParams } from 'react-router';
import { referenceQuery } from '../../client/comparison-queries.js';
import { HeadStrip, Sheet } from '../../parts/sheet/sheet.js';
import { Reading, Trouble } from '../../parts/trouble.js';
import { useMe } from '../people/me.js';
import { ReferenceForm } from './reference-form.js';

const MEANING =
  'Units of known making, by serial and lot, across as many lots as there are. Choose them before anything is known of what will be compared with them: the instant is kept with the choice, and neither ever changes.';

/** Specimens of a product are chosen as a reference. */
export function ChooseReferencePage() {
  const [search] = useSearchParams();
  return (
    <Sheet title="Choose a reference">
      <HeadStrip noun="" name="Choose a reference" sentence={MEANING} />
      <IfMayDefine>
        <ReferenceForm product={search.get('product') ?? ''} />
      </IfMayDefine>
    </Sheet>
  );
}

/** The next revision of a reference; those before stay as they are. */
export function NextReferencePage() {
  const { reference = '' } = useParams();
  const { data, error, refetch } = useQuery(referenceQuery(reference));
  return (
    <Sheet title={`Reference ${reference}, chosen otherwise`}>
      {data ? (
        <>
          <HeadStrip
            noun="Reference"
            name={reference}
            of={`rev. ${data.content.revision + 1}`}
            sentence={`${MEANING} Comparisons that rest on an earlier revision go on to rest on it.`}
          />
          <IfMayDefine>
            <ReferenceForm product={data.content.product} before={data.content} />
          </IfMayDefine>
        </>
      ) : error ? (
        <Trouble error={error} onAgain={() => void refetch()} />
      ) : (
        <Reading what={`reference ${reference}`} />
      )}
    </Sheet>
  );
}

function IfMayDefine({ children }: { children: React.ReactNode }) {
  const { duties } = useMe();
  return duties.includes('define') ? (
    children
  ) : (
    <p className="nothing">A reference is chosen by somebody with the duty to define. You do not have it.</p>
  );
}
