import { useQuery } from '@tanstack/react-query';
import { useParams } from 'react-router';
import type { PersonRecord } from '../../client/answers.js';
import { personQuery } from '../../client/queries.js';
import { HeadStrip, Sheet } from '../../parts/sheet/sheet.js';
import { Reading, Trouble } from '../../parts/trouble.js';
import { CompetenceSection } from './competence-section.js';
import { useMe } from './me.js';
import { OutsideIdentitySection } from './outside-identity-section.js';

/** One person: what they may do, for which methods they are authorised, and by what name outside they sign in. */
export function PersonPage() {
  const { person = '' } = useParams();
  const { data, error, refetch } = useQuery(personQuery(person));
  return (
    <Sheet title={`Person ${person}`}>
      {data ? (
        <PersonSheet of={data} />
      ) : error ? (
        <Trouble error={error} onAgain={() => void refetch()} />
      ) : (
        <Reading what={`the sheet of ${person}`} />
      )}
    </Sheet>
  );
}

function PersonSheet({ of: { key, content, signsIn } }: { of: PersonRecord }) {
  const { duties } = useMe();
  return (
    <>
      <HeadStrip
        noun="Person"
        name={<bdi>{content.name}</bdi>}
        of={<bdi>{content.role}</bdi>}
        facts={[
          { term: 'Signs in as', says: signsIn ? key : `${key}, and has no passphrase` },
          { term: 'Duties', says: content.duties.length === 0 ? 'none' : content.duties.join(', ') },
        ]}
      />
      <CompetenceSection person={key} />
      {(duties.includes('administer') || duties.includes('audit')) && <OutsideIdentitySection person={key} />}
    </>
  );
}
