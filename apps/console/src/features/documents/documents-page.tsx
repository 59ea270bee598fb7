import { useInfiniteQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Link, useSearchParams } from 'react-router';
import { documentsQuery } from '../../client/document-queries.js';
import { lotAddress } from '../../parts/addresses.js';
import { Field } from '../../parts/field.js';
import { Listing } from '../../parts/listing.js';
import { DocumentsTable } from './documents-table.js';

/** Every document that was made, or those of one lot, as they were kept: the same bytes for whoever opens one. */
export function DocumentsPage() {
  const [search] = useSearchParams();
  const lot = search.get('lot') ?? undefined;
  const list = useInfiniteQuery(documentsQuery(lot));
  return (
    <Listing
      title={lot === undefined ? 'Documents' : `Documents of lot ${lot}`}
      things="documents"
      sentence="Papers made of evaluations: drafts, and what the lab signed. Each is kept as it was made and never changes."
      list={list}
      actions={
        <>
          <Link className="action main" to="/documents/check">
            Check a document
          </Link>
          <Link className="action" to="/documents/keys">
            Signing keys
          </Link>
        </>
      }
    >
      {(documents) => (
        <>
          {lot === undefined ? (
            <OfOneLot />
          ) : (
            <p>
              <Link to={lotAddress(lot)}>Lot {lot}</Link>, or <Link to="/documents">all documents</Link>.
            </p>
          )}
          <DocumentsTable
            documents={documents}
            {...(lot === undefined ? {} : { ofLot: lot })}
            empty="No document was made yet. A report is made on the sheet of a lot, once the lot is evaluated."
          />
        </>
      )}
    </Listing>
  );
}

function OfOneLot() {
  const [, setSearch] = useSearchParams();
  const [lot, setLot] = useState('');
  return (
    <form
      className="form"
      onSubmit={(event) => {
        event.preventDefault();
        if (lot.trim() !== '') setSearch({ lot: lot.trim() });
      }}
    >
      <Field
        label="Only those of lot"
        hint="By its name, then Enter."
        value={lot}
        onChange={({ target }) => setLot(target.value)}
      />
    </form>
  );
}
