import { useMutation, useQueryClient } from '@tanstack/react-query';
import { Link } from 'react-router';
import { seatTaken } from '../../client/queries.js';
import { send } from '../../client/send.js';
import { useMe } from './me.js';
import './signed-in-person.css';

/** Who is signed in, their own page, and the way out. */
export function SignedInPerson() {
  const { name, role } = useMe();
  return (
    <div className="signed-in">
      <p>
        <Link to="/me">
          <bdi>{name}</bdi>
        </Link>
      </p>
      <p className="quiet">{role}</p>
      <SignOut />
    </div>
  );
}

export function SignOut() {
  const queries = useQueryClient();
  const signOut = useMutation({
    mutationFn: () => send('POST /api/sign-out'),
    onSuccess: () => seatTaken(queries, null),
  });
  return (
    <button type="button" className="sign-out" onClick={() => signOut.mutate()} disabled={signOut.isPending}>
      Sign out
    </button>
  );
}
