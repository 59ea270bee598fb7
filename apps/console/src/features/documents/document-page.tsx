import { printFixed } from '@breakbook/units';
import { useInfiniteQuery, useQuery } from '@tanstack/react-query';
import { Link, useParams } from 'react-router';
import type { DocumentRecord } from '../../client/answers.js';
import { certificatesQuery, documentAddress, documentQuery } from '../../client/document-queries.js';
import { labQuery, peopleQuery } from '../../client/queries.js';
import {
  certificateAddress,
  comparisonAddress,
  dispositionAddress,
  documentSheetAddress,
  lotAddress,
} from '../../parts/addresses.js';
import { asSentence } from '../../parts/capital.js';
import { moment } from '../../parts/moment.js';
import { HeadStrip, Section, Sheet } from '../../parts/sheet/sheet.js';
import { Reading, Trouble } from '../../parts/trouble.js';
import { Who } from '../../parts/who.js';
import { SignDocument } from './sign-document.js';
import { signedInWords } from './signed-in-words.js';

/** One document: what it is of, whether the lab signed it, and how it is authorised. */
export function DocumentPage() {
  const { n = '' } = useParams();
  const { data, error, refetch } = useQuery(documentQuery(n));
  return (
    <Sheet title={`Document ${n}`}>
      {data ? (
        <DocumentSheet one={data} />
      ) : error ? (
        <Trouble error={error} onAgain={() => void refetch()} />
      ) : (
        <Reading what={`document ${n}`} />
      )}
    </Sheet>
  );
}

function DocumentSheet({ one }: { one: DocumentRecord }) {
  const { data: people = [] } = useQuery(peopleQuery);
  const { data: lab } = useQuery(labQuery);
  const { number, kind, lot, comparison, evaluation, at, by, software, sha256, size, signedWith, signedAs } = one;
  return (
    <>
      <HeadStrip
        noun="Document"
        name={number}
        of={kind}
        sentence={
          signedWith === null && signedAs === null
            ? 'A draft: nobody has authorised it.'
            : asSentence(signedInWords(one))
        }
        next={<Next one={one} />}
        actions={
          <a className="action main" href={documentAddress(number)} target="_blank" rel="noreferrer">
            Open it (PDF)
          </a>
        }
        facts={[
          ...(comparison === null
            ? [
                { term: 'Lot', says: lot === null ? 'of no lot' : <Link to={lotAddress(lot)}>{lot}</Link> },
                { term: 'Evaluation', says: evaluation ?? 'none' },
              ]
            : [{ term: 'Comparison', says: <Link to={comparisonAddress(comparison)}>{comparison}</Link> }]),
          { term: 'Made', says: moment(at, lab?.zone ?? 'UTC') },
          { term: 'By', says: <Who people={people} person={by} /> },
          { term: 'Software', says: software },
          { term: 'Bytes', says: printFixed(size, 0) },
          { term: 'SHA-256 of the file', says: <code>{sha256}</code> },
        ]}
      />
      {signedWith === null && signedAs === null && (
        <Section
          question="Is it to be authorised and signed?"
          word="Signature"
          aside="Every run it tells of is reviewed before that. The signature covers the file as it is shown, by its digest."
        >
          <SignDocument one={one} />
        </Section>
      )}
    </>
  );
}

function Next({ one: { kind, lot, signedWith, signedAs, number } }: { one: DocumentRecord }) {
  if (signedAs !== null)
    return (
      <>
        nothing with this draft. <Link to={documentSheetAddress(signedAs)}>Document {signedAs}</Link> is what the lab
        signed.
      </>
    );
  if (signedWith === null)
    return 'somebody with the duty to issue looks at it, authorises it, and has the lab sign it.';
  if (kind === 'certificate of test' && lot !== null) return <OfCertificate document={number} lot={lot} />;
  if (lot === null) return 'nothing.';
  return (
    <>
      a certificate of test can rest on it, once <Link to={dispositionAddress(lot)}>the lot is decided about</Link>.
    </>
  );
}

function OfCertificate({ document, lot }: { document: number; lot: string }) {
  const { data } = useInfiniteQuery(certificatesQuery(lot));
  const found = data?.pages.flatMap(({ items }) => items).find((one) => one.document === document);
  if (!found) return 'nothing.';
  return (
    <>
      nothing. How it stands is told by{' '}
      <Link to={certificateAddress(found.number)}>certificate {found.certificate}</Link>.
    </>
  );
}
