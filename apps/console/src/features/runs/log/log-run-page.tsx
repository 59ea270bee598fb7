import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { type FormEvent, useState } from 'react';
import { useSearchParams } from 'react-router';
import type { RecordedAnswer, UnreadAnswer } from '../../../client/answers.js';
import { seatTaken, unreadFileQuery } from '../../../client/queries.js';
import { isSignedOut } from '../../../client/read.js';
import { send } from '../../../client/send.js';
import { sendPhoto } from '../../../client/send-photo.js';
import { type Sent, sendRun } from '../../../client/send-run.js';
import { HeadStrip, Section, Sheet } from '../../../parts/sheet/sheet.js';
import { Reading, Trouble } from '../../../parts/trouble.js';
import { useMe } from '../../people/me.js';
import { type Draft, isBegun } from './draft.js';
import { useDraft } from './drafts.js';
import { FilesSection } from './files-section.js';
import { FoundSection } from './found-section.js';
import { ConditionsSection, KeyedSection } from './keyed-section.js';
import './log-run-page.css';
import { PhotosSection } from './photos-section.js';
import { ReadySection } from './ready-section.js';
import { type Recorded, RecordedRun } from './recorded.js';
import { SendSection } from './send-section.js';
import { toNewRun } from './to-new-run.js';
import { type FoundNames, useNamed } from './use-named.js';
import { WhichSection } from './which-section.js';

/** What every section of the form works on. */
export interface OfDraft {
  draft: Draft;
  change: (change: Partial<Draft>) => void;
  named: FoundNames;
  /** The unread file whose kept bytes are read as the files of this run, instead of new ones. */
  unread: UnreadAnswer | undefined;
}

/** Logging a run, from the readiness list to what was found; sent as a whole, with its files. */
export function LogRunPage() {
  const me = useMe();
  const [recorded, setRecorded] = useState<Recorded>();
  const [asked, setAsked] = useSearchParams();
  const unreadId = asked.get('unread');
  const unread = useQuery({ ...unreadFileQuery(unreadId ?? ''), enabled: unreadId !== null });
  const { draft, change, begin } = useDraft(me.person, asked.get('specimen') ?? undefined);
  if (!me.duties.includes('record'))
    return (
      <Sheet title="Log a run">
        <HeadStrip
          noun=""
          name="Log a run"
          sentence="Runs are logged by people with the duty to record. You do not have it."
        />
      </Sheet>
    );
  if (recorded)
    return (
      <Sheet title={`Run ${recorded.answer.run} is recorded`}>
        <RecordedRun
          of={recorded}
          onNext={() => {
            setAsked({});
            setRecorded(undefined);
          }}
        />
      </Sheet>
    );
  if (unreadId !== null && !unread.data)
    return (
      <Sheet title="Log a run">
        {unread.error ? (
          <Trouble error={unread.error} onAgain={() => void unread.refetch()} />
        ) : (
          <Reading what="the unread file" />
        )}
      </Sheet>
    );
  return (
    <LogRunForm
      unread={unread.data}
      draft={draft}
      change={change}
      begin={begin}
      onRecorded={(one) => {
        begin();
        setRecorded(one);
        window.scrollTo(0, 0);
      }}
    />
  );
}

interface LogRunFormProps extends Omit<OfDraft, 'named'> {
  begin: () => void;
  onRecorded: (recorded: Recorded) => void;
}

function LogRunForm({ draft, change, unread, begin, onRecorded }: LogRunFormProps) {
  const { person } = useMe();
  const queries = useQueryClient();
  const named = useNamed(draft);
  const [sent, setSent] = useState<Sent>();
  const [lacking, setLacking] = useState<readonly string[]>([]);
  const record = useMutation({
    mutationFn: async (run: Parameters<typeof sendRun>[1]): Promise<Recorded> => {
      const answer = unread
        ? await send('POST /api/unread/{id}/read', { path: { id: unread.id }, body: run })
        : await sendRun(draft.key, run, draft.files, setSent);
      return { answer, photosRefused: await sendPhotos(answer, draft, person) };
    },
    onError: (error) => {
      if (isSignedOut(error)) seatTaken(queries, null);
    },
    onSuccess: (done) => {
      for (const queryKey of [
        ['runs'],
        ['lots'],
        ['specimens'],
        ['lot', done.answer.lot],
        ['specimen', done.answer.specimen],
      ])
        void queries.invalidateQueries({ queryKey });
      onRecorded(done);
    },
    onSettled: () => setSent(undefined),
  });
  const of: OfDraft = { draft, change, named, unread };
  const submit = (event: FormEvent) => {
    event.preventDefault();
    const now = draft.sentAt ?? new Date().toISOString();
    const made = madeOf(draft, named, person, now);
    setLacking('lacking' in made ? made.lacking : []);
    if ('lacking' in made) return;
    change({ sentAt: now });
    record.mutate(made.run);
  };
  return (
    <Sheet title="Log a run">
      <HeadStrip
        noun=""
        name="Log a run"
        sentence="One specimen on one rig. Nothing is kept until you send it; what you type stays here if you leave the page or your session ends."
        actions={
          isBegun(draft) && (
            <button type="button" className="action" onClick={begin}>
              Start anew
            </button>
          )
        }
      />
      <form className="log" onSubmit={submit} noValidate>
        <WhichSection {...of} />
        <ReadySection {...of} />
        <FilesSection {...of} />
        <KeyedSection {...of} />
        <ConditionsSection {...of} />
        <FoundSection {...of} />
        <PhotosSection {...of} />
        <Section question="Is it as it was?" word="Record">
          <SendSection
            lacking={lacking}
            error={record.error}
            sending={record.isPending}
            looking={named.looking}
            sent={sent}
          />
        </Section>
      </form>
    </Sheet>
  );
}

function madeOf(draft: Draft, named: FoundNames, person: string, now: string): ReturnType<typeof toNewRun> {
  const { choice, method, specimen, zone, number, layoutRevision } = named;
  if (draft.specimen === '' || !specimen)
    return { lacking: ['Which specimen was run? Scan its label or type its code.'] };
  if (!choice || !method) return { lacking: ['Under which line of the plan was it run? Choose it at the top.'] };
  if (draft.rig !== '' && !named.rig) return { lacking: [`There is no rig “${draft.rig}”. Scan its label again.`] };
  const made = toNewRun(draft, {
    specimen: specimen.key,
    plan: { plan: choice.plan.plan, revision: choice.plan.revision },
    line: choice.line.line,
    method,
    layoutRevision,
    person,
    zone,
    number,
    now,
  });
  const photos = draft.photos.flatMap(({ file, caption }) =>
    caption.trim() === '' ? [`What photo ${file.name} shows is missing.`] : [],
  );
  if (draft.photos.length > 0 && draft.device.trim() === '') photos.push('What the photos were taken with is missing.');
  if (photos.length === 0) return made;
  return { lacking: [...('lacking' in made ? made.lacking : []), ...photos] };
}

/** Photos follow the run they belong to; one that is refused does not undo it. */
async function sendPhotos({ run }: RecordedAnswer, draft: Draft, person: string): Promise<string[]> {
  const refused: string[] = [];
  for (const { file, caption, shows } of draft.photos)
    await sendPhoto({ run }, file, {
      caption: caption.trim(),
      ...(shows === '' ? {} : { shows }),
      device: draft.device.trim(),
      takenBy: person,
      takenAt: new Date(file.lastModified).toISOString(),
    }).catch((error: Error) => refused.push(`${file.name}: ${error.message}`));
  return refused;
}
