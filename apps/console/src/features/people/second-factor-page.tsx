import { useQueryClient } from '@tanstack/react-query';
import type { Myself } from '../../client/answers.js';
import { meQuery, secondFactorQuery } from '../../client/queries.js';
import { HeadStrip, Section, Sheet } from '../../parts/sheet/sheet.js';
import { GiveSecondFactor } from './give-second-factor.js';
import { SignOut } from './signed-in-person.js';

/** Whoever has something beside the passphrase gives it before anything else opens. */
export function SecondFactorPage({ me }: { me: Myself }) {
  const queries = useQueryClient();
  return (
    <main className="before">
      <Sheet title="Second factor">
        <HeadStrip
          noun="Breakbook"
          name="Second factor"
          sentence="Your passphrase was right. You have a second factor beside it, which is asked for now."
          actions={<SignOut />}
          facts={[
            { term: 'Signed in', says: <bdi>{me.name}</bdi> },
            { term: 'Lab', says: me.lab.name },
          ]}
        />
        <Section question="Which code do you see?" word="Code">
          <GiveSecondFactor
            onGiven={() => {
              void queries.invalidateQueries({ queryKey: secondFactorQuery.queryKey });
              void queries.invalidateQueries({ queryKey: meQuery.queryKey });
            }}
          />
        </Section>
      </Sheet>
    </main>
  );
}
