import { Paragraph } from '@breakbook/lab';
import { useInfiniteQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Link, useNavigate } from 'react-router';
import type { CertificateRecord, DocumentInList, SheetToSign } from '../../client/answers.js';
import { certificatesQuery, documentAddress, documentsQuery } from '../../client/document-queries.js';
import { send } from '../../client/send.js';
import { useSent } from '../../client/use-sent.js';
import { certificateAddress, documentSheetAddress, lotAddress } from '../../parts/addresses.js';
import { TextArea } from '../../parts/field.js';
import { Section } from '../../parts/sheet/sheet.js';
import { AgainForm } from '../people/again-form.js';
import { useMe } from '../people/me.js';
import { CertificatesTable } from './certificates-table.js';
import { CERTIFICATE_RENEWS } from './fate-section.js';

type Disposition = SheetToSign['sheet']['dispositions'][number];

/** The certificates of a lot, and the issue of one over the disposition that is in force and accepts it. */
export function IssueSection({ sheet }: { sheet: SheetToSign['sheet'] }) {
  const { duties } = useMe();
  const { data: ofCertificates } = useInfiniteQuery(certificatesQuery(sheet.lot));
  const { data: ofDocuments } = useInfiniteQuery(documentsQuery(sheet.lot));
  const accepting = sheet.dispositions.find(({ state, outcome }) => state === 'in force' && outcome !== 'not accepted');
  const certificates = ofCertificates?.pages.flatMap(({ items }) => items);
  const documents = ofDocuments?.pages.flatMap(({ items }) => items);
  if (!certificates || !documents || (certificates.length === 0 && !accepting)) return null;
  return (
    <Section
      question="Is there a certificate of test?"
      word="Certificate"
      aside="It says what was tested and what was decided, and rests on the signed report of the evaluation that was decided on."
    >
      <CertificatesTable certificates={certificates} ofLot={sheet.lot} empty="None was issued yet." />
      {accepting && duties.includes('issue') && (
        <Issue
          disposition={accepting}
          lot={sheet.lot}
          reports={documents.filter(
            ({ kind, evaluation }) => kind === 'lot test report' && evaluation === accepting.evaluation,
          )}
          standing={certificates.find(({ state }) => state === 'in force' || state === 'on hold')}
        />
      )}
    </Section>
  );
}

interface IssueProps {
  disposition: Disposition;
  lot: string;
  /** Of the evaluation that was decided on, drafts among them. */
  reports: readonly DocumentInList[];
  standing: CertificateRecord | undefined;
}

function Issue({ disposition, lot, reports, standing }: IssueProps) {
  const navigate = useNavigate();
  const [changed, setChanged] = useState('');
  const [because, setBecause] = useState('');
  const signed = reports.find(({ signedWith }) => signedWith !== null);
  const sent = useSent({
    send: async (_: undefined) => {
      if (!signed) return;
      const replaces = standing && {
        replaces: { certificate: standing.number, changed: changed.trim(), because: because.trim() },
      };
      const { number } = await send('POST /api/dispositions/{n}/certificates', {
        path: { n: `${disposition.number}` },
        body: { report: signed.number, shown: signed.sha256, ...replaces },
      });
      void navigate(certificateAddress(number));
    },
    renews: CERTIFICATE_RENEWS,
  });
  if (!signed)
    return (
      <p>
        Before one is issued, the report of evaluation {disposition.evaluation} is authorised and signed:{' '}
        {reports[0] ? (
          <Link to={documentSheetAddress(reports[0].number)}>document {reports[0].number}</Link>
        ) : (
          <>
            it is made on <Link to={lotAddress(lot)}>the sheet of the lot</Link>
          </>
        )}
        .
      </p>
    );
  const isSaid = (text: string) => Paragraph.safeParse(text.trim()).success;
  return (
    <AgainForm
      sent={sent}
      button="Issue a certificate"
      whole={standing === undefined || (isSaid(changed) && isSaid(because))}
    >
      <p>
        Over disposition {disposition.number} ({disposition.outcome}), resting on{' '}
        <a href={documentAddress(signed.number)} target="_blank" rel="noreferrer">
          document {signed.number}
        </a>
        , the signed report. After this it is signed in your name, and can only be held, superseded or withdrawn.
      </p>
      {standing && (
        <>
          <p>
            It takes the place of {standing.certificate}, which is {standing.state} and is superseded by it.
          </p>
          <TextArea
            label="What changed against that one"
            rows={2}
            value={changed}
            onChange={({ target }) => setChanged(target.value)}
          />
          <TextArea label="Why" rows={2} value={because} onChange={({ target }) => setBecause(target.value)} />
        </>
      )}
    </AgainForm>
  );
}
