import { useMutation, useQueryClient } from '@tanstack/react-query';
import { seatTaken } from './queries.js';
import { isSignedOut } from './read.js';

/**
 * Something that is sent to the service by a form: once taken, everything that begins with these names is read anew. An
 * answer that says that nobody is signed in empties the seat.
 */
export function useSent<T, A>(given: {
  send: (what: T) => Promise<A>;
  renews: readonly string[];
  onTaken?: () => void;
}) {
  const queries = useQueryClient();
  return useMutation({
    mutationFn: given.send,
    onError: (error) => {
      if (isSignedOut(error)) seatTaken(queries, null);
    },
    onSuccess: async () => {
      given.onTaken?.();
      await Promise.all(given.renews.map((name) => queries.invalidateQueries({ queryKey: [name] })));
    },
  });
}
