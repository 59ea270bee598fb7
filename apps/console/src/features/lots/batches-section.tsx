import { PLAIN_PRINT, type PrintChoice, type SheetKind } from '@breakbook/lab';
import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import type { DocumentBatch, JobAnswer } from '../../client/answers.js';
import { labQuery } from '../../client/queries.js';
import { needsPassphrase } from '../../client/read.js';
import { send } from '../../client/send.js';
import { batchAddress, batchesQuery } from '../../client/sheet-queries.js';
import { useJob } from '../../client/use-job.js';
import { Choice } from '../../parts/choice.js';
import { FormProblem } from '../../parts/field.js';
import { isUnderway, JobUnderway, whyFailed } from '../../parts/job-underway.js';
import { moment } from '../../parts/moment.js';
import { Section } from '../../parts/sheet/sheet.js';
import { type Column, Table } from '../../parts/table.js';
import { useMe } from '../people/me.js';
import { PassphraseAgain } from '../people/passphrase-again.js';
import { MAY_MAKE_SHEETS } from './make-sheet.js';
import { PrintChoices } from './print-choice.js';

const ALL: Record<SheetKind, string> = {
  'run sheet': 'run sheets',
  'specimen record': 'specimen records',
  'label sheet': 'labels',
};

/** All sheets of one kind of a lot, made as one job that goes on while the page is left, and can be given up and gone on with. */
export function BatchesSection({ lot }: { lot: string }) {
  const queries = useQueryClient();
  const { duties } = useMe();
  const { data: lab } = useQuery(labQuery);
  const [kind, setKind] = useState<SheetKind>('run sheet');
  const [print, setPrint] = useState<PrintChoice>(PLAIN_PRINT);
  const batches = useQuery(batchesQuery(lot));
  const again = () => void queries.invalidateQueries({ queryKey: batchesQuery(lot).queryKey });
  const work = useJob(`sheets of lot ${lot}`, () => {
    again();
    void queries.invalidateQueries({ queryKey: ['documents'] });
  });
  const ask = useMutation({
    mutationFn: (asking: () => Promise<JobAnswer>) => asking(),
    onSuccess: ({ id }) => {
      work.follow(id);
      again();
    },
  });
  const cancel = useMutation({
    mutationFn: (id: string) => send('POST /api/jobs/{id}/cancel', { path: { id } }),
    onSettled: again,
  });
  const busy = ask.isPending || isUnderway(work.job);
  const may = MAY_MAKE_SHEETS.some((duty) => duties.includes(duty));
  return (
    <Section question="Are there sheets of every run and specimen?" word="Sheets">
      <p>
        A sheet for each run, a record for each specimen, or labels for all of them, made of what is stored. Each is a
        document of its own; all of them can be taken away as one zip.
      </p>
      {may && (
        <>
          <Choice
            legend="Which"
            options={(Object.keys(ALL) as SheetKind[]).map((value) => ({ value, word: `all ${ALL[value]}` }))}
            chosen={kind}
            onChoose={setKind}
          />
          <button
            type="button"
            className="action"
            disabled={busy}
            onClick={() =>
              ask.mutate(() =>
                send('POST /api/lots/{lot}/document-batches', { path: { lot }, body: { kind, ...print } }),
              )
            }
          >
            Make all {ALL[kind]}
          </button>
          <PrintChoices print={print} onChoose={setPrint} />
        </>
      )}
      {work.job && isUnderway(work.job) && (
        <div className="work">
          <JobUnderway work={work} />
          <button type="button" className="plain" onClick={() => work.job && cancel.mutate(work.job.id)}>
            Cancel
          </button>
        </div>
      )}
      {work.job?.state === 'failed' && <p role="alert">{whyFailed(work.job)}</p>}
      <PassphraseAgain
        error={ask.error}
        onGiven={() => {
          if (ask.variables !== undefined) ask.mutate(ask.variables);
        }}
      />
      <FormProblem error={needsPassphrase(ask.error) ? null : (ask.error ?? cancel.error ?? batches.error)} />
      {batches.data && (
        <Table<DocumentBatch>
          caption="Sheets asked for at once, newest first"
          columns={columnsOf({
            zone: lab?.zone ?? 'UTC',
            ...(may && !busy
              ? {
                  onGoOn: (n: number) =>
                    ask.mutate(() => send('POST /api/document-batches/{n}/resumption', { path: { n: `${n}` } })),
                }
              : {}),
          })}
          rows={batches.data.items}
          rowKey={({ number }) => `${number}`}
          empty="None were asked for yet."
        />
      )}
    </Section>
  );
}

function columnsOf({ zone, onGoOn }: { zone: string; onGoOn?: (n: number) => void }): Column<DocumentBatch>[] {
  return [
    { head: 'What', cell: ({ kind }) => `All ${ALL[kind]}` },
    { head: 'Asked for', cell: ({ at }) => <span className="whole">{moment(at, zone)}</span> },
    { head: 'Made', cell: ({ made, of, state }) => `${made} of ${of}, ${state}` },
    {
      head: 'Files',
      cell: ({ number, made }) =>
        made > 0 && (
          <a href={batchAddress(number)} download aria-label={`Zip of batch ${number}`}>
            Zip
          </a>
        ),
    },
    {
      head: 'Act',
      cell: ({ number, state }) =>
        state === 'stopped' &&
        onGoOn && (
          <button type="button" className="plain" onClick={() => onGoOn(number)}>
            Go on
          </button>
        ),
    },
  ];
}
