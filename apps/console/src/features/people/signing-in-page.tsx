import { useQuery, useQueryClient } from '@tanstack/react-query';
import { Link, useNavigate } from 'react-router';
import { seatTaken } from '../../client/queries.js';
import { send } from '../../client/send.js';
import { FormProblem } from '../../parts/field.js';
import { HeadStrip, Section, Sheet } from '../../parts/sheet/sheet.js';
import { placeBefore } from './place-before.js';

/** Where the provider sends people back to. */
export const RETURN_PAGE = '/signing-in';

/** Ends a sign-in by the provider with what it wrote behind this page's address, and goes on where it began. */
export function SigningInPage() {
  const queries = useQueryClient();
  const navigate = useNavigate();
  const { error } = useQuery({
    queryKey: ['ways', 'return'],
    queryFn: async () => {
      const body = { query: window.location.search.slice(1) };
      const me = await send('POST /api/sign-in/outside/return', { body });
      await navigate(placeBefore(), { replace: true });
      seatTaken(queries, me);
      return null;
    },
    // What came back is taken once.
    retry: false,
    staleTime: Number.POSITIVE_INFINITY,
  });
  return (
    <Sheet title="Sign in">
      <HeadStrip noun="Breakbook" name="Signing in" />
      <Section question="Who are you?" word="Sign in">
        {error ? <FormProblem error={error} /> : <p role="status">You are being signed in.</p>}
        {error && (
          <p>
            <Link to="/">Begin again</Link>
          </p>
        )}
      </Section>
    </Sheet>
  );
}
