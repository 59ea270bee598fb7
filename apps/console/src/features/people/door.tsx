import { useQuery } from '@tanstack/react-query';
import type { ReactNode } from 'react';
import { useLocation } from 'react-router';
import type { Myself } from '../../client/answers.js';
import { meQuery } from '../../client/queries.js';
import { Reading, Trouble } from '../../parts/trouble.js';
import { FirstSecondFactorPage } from './first-second-factor-page.js';
import { MeContext } from './me.js';
import { OwnPassphrasePage } from './own-passphrase-page.js';
import { SecondFactorPage } from './second-factor-page.js';
import { SignInPage } from './sign-in-page.js';
import { RETURN_PAGE, SigningInPage } from './signing-in-page.js';

/** Lets in who is signed in, at the address they came to; everybody else signs in there first. */
export function Door({ children }: { children: ReactNode }) {
  const { data: me, error, refetch } = useQuery(meQuery);
  const { pathname } = useLocation();
  if (me?.secondFactor === 'owed') return <SecondFactorPage me={me} />;
  if (me?.givenPassphrase) return <OwnPassphrasePage me={me} />;
  if (me) return <MeContext value={me}>{isToAdd(me) ? <FirstSecondFactorPage me={me} /> : children}</MeContext>;
  return (
    <main className="before">
      {me === null ? (
        pathname === RETURN_PAGE ? (
          <SigningInPage />
        ) : (
          <SignInPage />
        )
      ) : error ? (
        <Trouble error={error} onAgain={() => void refetch()} />
      ) : (
        <Reading what="who is signed in" />
      )}
    </main>
  );
}

/** Where the lab asks everybody for a second factor, whoever has none adds one first. */
function isToAdd({ secondFactor, secondFactorNeeded }: Myself): boolean {
  return secondFactor === 'none' && secondFactorNeeded === 'everything';
}
