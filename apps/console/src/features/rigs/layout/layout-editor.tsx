import type { Layout } from '@breakbook/lab';
import { useState } from 'react';
import type { LayoutProposal } from '../../../client/answers.js';
import { Choice } from '../../../parts/choice.js';
import { Section } from '../../../parts/sheet/sheet.js';
import { ColumnsSection } from './columns-section.js';
import { FoundSection } from './found-section.js';
import { HeaderSection } from './header-section.js';
import { KeepSection } from './keep-section.js';
import { draftOf, type LayoutDraft } from './layout-draft.js';
import { TextSection } from './text-section.js';
import { TimeSection } from './time-section.js';
import { TrialSection } from './trial-section.js';

/** A layout being made for a file. */
export interface OfLayout {
  draft: LayoutDraft;
  change: (said: Partial<LayoutDraft>) => void;
  file: File;
  /** Names of the file's columns, in order. */
  inFile: readonly string[];
  /** Channels that methods of the lab read. */
  channels: readonly string[];
  /** The rig's layout in its last revision. */
  inForce: Layout | undefined;
  /** The unread file whose bytes these are. */
  unread: string | undefined;
}

interface EditorProps extends Pick<OfLayout, 'file' | 'channels' | 'inForce' | 'unread'> {
  rig: string;
  proposal: LayoutProposal;
}

type Begun = 'file' | 'layout';

/** Every member of a layout, beside what it makes of the file. */
export function LayoutEditor({ rig, proposal, file, channels, inForce, unread }: EditorProps) {
  const inFile = proposal.columns.map(({ name }) => name);
  const begin = (from: Begun): LayoutDraft => {
    // What a file proposes has the members of a layout, with an empty text where the file does not say it.
    const base = from === 'layout' && inForce ? inForce : (proposal.layout as unknown as Layout);
    return {
      ...draftOf(base, inFile),
      layout: inForce?.layout ?? `${rig}-log`,
      revision: (inForce?.revision ?? 0) + 1,
      rig,
    };
  };
  const [from, setFrom] = useState<Begun>('file');
  const [draft, setDraft] = useState(() => begin('file'));
  const of: OfLayout = {
    draft,
    change: (said) => setDraft((before) => ({ ...before, ...said })),
    file,
    inFile,
    channels,
    inForce,
    unread,
  };
  return (
    <>
      <FoundSection proposal={proposal} />
      {inForce && (
        <Section question="Where does the new layout begin?" word="Begin">
          <Choice
            legend="Begin with"
            options={[
              { value: 'file', word: 'what the file says' },
              { value: 'layout', word: `${inForce.layout} rev. ${inForce.revision}` },
            ]}
            chosen={from}
            onChoose={(chosen) => {
              setFrom(chosen);
              setDraft(begin(chosen));
            }}
          />
        </Section>
      )}
      <TextSection {...of} />
      <HeaderSection {...of} />
      <TimeSection {...of} />
      <ColumnsSection {...of} />
      <TrialSection draft={draft} file={file} />
      <KeepSection {...of} />
    </>
  );
}
