import { createContext, useContext } from 'react';
import type { Myself } from '../../client/answers.js';

export const MeContext = createContext<Myself | undefined>(undefined);

/** The person signed in; known behind the door only. */
export function useMe(): Myself {
  const me = useContext(MeContext);
  if (!me) throw new Error('Who is signed in is known behind the Door only.');
  return me;
}
