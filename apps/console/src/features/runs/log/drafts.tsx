import { createContext, type ReactNode, useContext, useMemo, useState } from 'react';
import { type Draft, newDraft } from './draft.js';

interface Drafts {
  of: (person: string) => Draft | undefined;
  change: (person: string, from: Draft, change: Partial<Draft>) => void;
  begin: (person: string, draft: Draft) => void;
}

const DraftsContext = createContext<Drafts | undefined>(undefined);

/**
 * What people have typed and not sent yet. It stands outside the door, so that a session that ends takes nothing with
 * it; each person finds their own again, and never another's.
 */
export function DraftsProvider({ children }: { children: ReactNode }) {
  const [drafts, setDrafts] = useState<ReadonlyMap<string, Draft>>(new Map());
  const value = useMemo<Drafts>(
    () => ({
      of: (person) => drafts.get(person),
      change: (person, from, change) =>
        setDrafts((before) => new Map(before).set(person, { ...(before.get(person) ?? from), ...change })),
      begin: (person, draft) => setDrafts((before) => new Map(before).set(person, draft)),
    }),
    [drafts],
  );
  return <DraftsContext value={value}>{children}</DraftsContext>;
}

/** The draft of whoever is signed in, how it changes, and how a new one is begun. */
export function useDraft(person: string, specimen: string | undefined) {
  const drafts = useContext(DraftsContext);
  if (!drafts) throw new Error('Drafts are kept inside a DraftsProvider only.');
  const [first] = useState(() => newDraft(specimen));
  const kept = drafts.of(person);
  return {
    draft: kept ?? first,
    change: (change: Partial<Draft>) => drafts.change(person, kept ?? first, change),
    begin: () => drafts.begin(person, newDraft()),
  };
}
