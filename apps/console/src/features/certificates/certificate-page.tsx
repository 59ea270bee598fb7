import { useInfiniteQuery, useQuery } from '@tanstack/react-query';
import { Link, useParams } from 'react-router';
import type { CertificateRecord } from '../../client/answers.js';
import { certificateQuery, certificatesQuery, documentAddress } from '../../client/document-queries.js';
import { labQuery, peopleQuery } from '../../client/queries.js';
import { certificateAddress, dispositionAddress, documentSheetAddress, lotAddress } from '../../parts/addresses.js';
import { Outcome } from '../../parts/marks/outcome.js';
import { moment } from '../../parts/moment.js';
import { HeadStrip, Section, Sheet } from '../../parts/sheet/sheet.js';
import { Reading, Trouble } from '../../parts/trouble.js';
import { Who } from '../../parts/who.js';
import { FateSection } from './fate-section.js';
import { SendingsSection } from './sendings-section.js';

/** One certificate of test: how it stands, what became of it, and who was sent it. */
export function CertificatePage() {
  const { n = '' } = useParams();
  const { data, error, refetch } = useQuery(certificateQuery(n));
  return (
    <Sheet title={`Certificate ${n}`}>
      {data ? (
        <CertificateSheet one={data} />
      ) : error ? (
        <Trouble error={error} onAgain={() => void refetch()} />
      ) : (
        <Reading what={`certificate ${n}`} />
      )}
    </Sheet>
  );
}

/** What each state means for whoever holds the paper. */
const MEANS: Record<CertificateRecord['state'], string> = {
  'in force': 'The lab stands by it.',
  'on hold': 'The lab is looking into something and does not stand by it for now.',
  superseded: 'Another certificate has taken its place.',
  withdrawn: 'The lab has taken it back.',
};

function CertificateSheet({ one }: { one: CertificateRecord }) {
  const { data: people = [] } = useQuery(peopleQuery);
  const { data: lab } = useQuery(labQuery);
  const { data: ofLot } = useInfiniteQuery(certificatesQuery(one.lot));
  const { number, certificate, lot, disposition, document, state, issued, history, replacedBy, statusPath } = one;
  const zone = lab?.zone ?? 'UTC';
  const before = ofLot?.pages.flatMap(({ items }) => items).find((other) => other.replacedBy === number);
  const reason = history.at(-1)?.reason;
  return (
    <>
      <HeadStrip
        noun="Certificate of test"
        name={certificate}
        outcome={<Outcome word={state} large />}
        sentence={
          <>
            {MEANS[state]}
            {reason !== undefined && (
              <>
                {' '}
                Reason: <bdi>{reason}</bdi>
              </>
            )}
          </>
        }
        next={<Next state={state} replacedBy={replacedBy} />}
        actions={
          <a className="action main" href={documentAddress(document)} target="_blank" rel="noreferrer">
            Open it (PDF)
          </a>
        }
        facts={[
          { term: 'Lot', says: <Link to={lotAddress(lot)}>{lot}</Link> },
          { term: 'Over disposition', says: <Link to={dispositionAddress(lot)}>{disposition}</Link> },
          { term: 'Issued', says: moment(issued.at, zone) },
          { term: 'By', says: <Who people={people} person={issued.by} /> },
          {
            term: 'Takes the place of',
            says: before ? <Link to={certificateAddress(before.number)}>{before.certificate}</Link> : 'none',
          },
        ]}
      />
      <Section
        question="Where can its status be asked?"
        word="Status"
        aside="Where the service was given a public address, the code printed on it leads there. A stranger is told what the paper says, how it stands and why, and nothing else."
      >
        <p className="verbatim">
          <a href={statusPath} target="_blank" rel="noreferrer">
            {`${window.location.origin}${statusPath}`}
          </a>
        </p>
      </Section>
      <Section question="Which files are there?" word="Files">
        <ul className="notes">
          <li>
            <Link to={documentSheetAddress(document)}>Document {document}</Link>, the signed certificate:{' '}
            <a href={documentAddress(document)} download>
              PDF
            </a>
          </li>
          <li>
            <Link to={`/documents?lot=${encodeURIComponent(lot)}`}>All documents of lot {lot}</Link>, the report it
            rests on among them
          </li>
        </ul>
      </Section>
      <FateSection one={one} />
      <SendingsSection one={one} />
      <Section question="What became of it, and when?" word="History">
        <ol className="history">
          {history.map(({ state: then, at, by, reason: why }, index) => (
            <li key={at}>
              <time dateTime={at}>{moment(at, zone)}</time>
              <p>
                {index === 0 ? 'issued, ' : ''}
                {then}, by <Who people={people} person={by} />
                {why !== undefined && (
                  <>
                    : <bdi>{why}</bdi>
                  </>
                )}
              </p>
            </li>
          ))}
        </ol>
      </Section>
    </>
  );
}

function Next({ state, replacedBy }: { state: CertificateRecord['state']; replacedBy: number | undefined }) {
  if (state === 'on hold') return 'whoever has the duty to issue releases or withdraws it, with a reason.';
  if (state === 'in force') return 'nothing, as long as the lab stands by it.';
  if (replacedBy === undefined) return 'nothing: this is for good. Whoever was sent it is told.';
  return (
    <>
      nothing: <Link to={certificateAddress(replacedBy)}>certificate {replacedBy}</Link> is to be used. Whoever was sent
      this one is told.
    </>
  );
}
