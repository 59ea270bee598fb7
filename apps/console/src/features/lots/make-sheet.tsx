import { PLAIN_PRINT, type PrintChoice } from '@breakbook/lab';
import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { Link } from 'react-router';
import type { JobAnswer } from '../../client/answers.js';
import { documentAddress } from '../../client/document-queries.js';
import { needsPassphrase } from '../../client/read.js';
import { send } from '../../client/send.js';
import { sheetsQuery } from '../../client/sheet-queries.js';
import { useJob } from '../../client/use-job.js';
import { documentSheetAddress } from '../../parts/addresses.js';
import { capital } from '../../parts/capital.js';
import { FormProblem } from '../../parts/field.js';
import { isUnderway, JobUnderway, whyFailed } from '../../parts/job-underway.js';
import { moment } from '../../parts/moment.js';
import { Section } from '../../parts/sheet/sheet.js';
import { useMe } from '../people/me.js';
import { PassphraseAgain } from '../people/passphrase-again.js';
import { PrintChoices } from './print-choice.js';

export const MAY_MAKE_SHEETS = ['review', 'decide', 'issue'] as const;

const WORDS = {
  run: { kind: 'run sheet', question: 'Is there a sheet of it?', may: MAY_MAKE_SHEETS },
  specimen: { kind: 'specimen record', question: 'Is there a record of it on paper?', may: MAY_MAKE_SHEETS },
  comparison: { kind: 'comparison report', question: 'Is there a report of it?', may: ['issue', 'decide'] },
} as const;

interface MakeSheetProps {
  of: keyof typeof WORDS;
  name: string;
  zone: string;
  /** What it is made of stands since this instant and never changes: one that was made by now is the only one. */
  oneSince?: string;
}

/** The paper of one run, specimen or comparison: the newest one, and how another is made of what is stored now. */
export function MakeSheet({ of, name, zone, oneSince }: MakeSheetProps) {
  const queries = useQueryClient();
  const { duties } = useMe();
  const { kind, question, may } = WORDS[of];
  const [print, setPrint] = useState<PrintChoice>(PLAIN_PRINT);
  const made = useQuery(sheetsQuery(of, name));
  const work = useJob(`${kind} of ${name}`, () => void queries.invalidateQueries({ queryKey: ['documents'] }));
  const ask = useMutation({
    mutationFn: () => make(of, name, print),
    onSuccess: ({ id }) => work.follow(id),
  });
  const last = made.data?.items[0];
  const isMade = oneSince !== undefined && last !== undefined && Date.parse(last.at) >= Date.parse(oneSince);
  return (
    <Section question={question} word="Documents">
      {last ? (
        <p role="status">
          <a href={documentAddress(last.number)} target="_blank" rel="noreferrer">
            {capital(kind)}, document {last.number} (PDF)
          </a>
          , made {moment(last.at, zone)};{' '}
          <Link to={documentSheetAddress(last.number)}>
            {last.signedWith === null ? 'an unsigned draft' : 'signed by the lab'}
          </Link>
          .
        </p>
      ) : (
        made.data && <p role="status">None was made yet.</p>
      )}
      {!isMade && may.some((duty) => duties.includes(duty)) && (
        <>
          <button
            type="button"
            className="action"
            disabled={ask.isPending || isUnderway(work.job)}
            onClick={() => ask.mutate()}
          >
            Make the {kind}
          </button>
          <PrintChoices print={print} onChoose={setPrint} />
        </>
      )}
      <JobUnderway work={work} />
      {work.job?.state === 'failed' && <p role="alert">{whyFailed(work.job)}</p>}
      <PassphraseAgain error={ask.error} onGiven={() => ask.mutate()} />
      <FormProblem error={needsPassphrase(ask.error) ? null : (ask.error ?? made.error)} />
    </Section>
  );
}

function make(of: keyof typeof WORDS, name: string, print: PrintChoice): Promise<JobAnswer> {
  switch (of) {
    case 'run':
      return send('POST /api/runs/{run}/documents', { path: { run: name }, body: { kind: 'run sheet', ...print } });
    case 'specimen':
      return send('POST /api/specimens/{specimen}/documents', {
        path: { specimen: name },
        body: { kind: 'specimen record', ...print },
      });
    case 'comparison':
      return send('POST /api/comparisons/{comparison}/documents', {
        path: { comparison: name },
        body: { kind: 'comparison report', ...print },
      });
  }
}
