import { useQuery } from '@tanstack/react-query';
import { type ReactNode } from 'react';
import { meQuery } from '../../client/queries.js';
import { Reading, Trouble } from '../../parts/trouble.js';
import { MeContext } from './me.js';
import { OwnPassphrasePage } from './own-passphrase-page.js';
import { SignInPage } from './sign-in-page.js';

/** Lets in who is signed in, at the address they came to; everybody else signs in there first. */
export function Door({ children }: { children: ReactNode }) {
  const { data: me, error, refetch } = useQuery(meQuery);
  if (me) return me.givenPassphrase ? <OwnPassphrasePage me={me} /> : <MeContext value={me}>{children}</MeContext>;
  return (
    <main className="before">
      {me === null ? (
        <SignInPage />
      ) : error ? (
        <Trouble error={error} onAgain={() => void refetch()} />
      ) : (
        <Reading what="who is signed in" />
      )}
    </main>
  );
}
