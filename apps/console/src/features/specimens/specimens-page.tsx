import { useInfiniteQuery } from '@tanstack/react-query';
import { Link } from 'react-router';
import type { SpecimenRecord } from '../../client/answers.js';
import { specimensQuery } from '../../client/queries.js';
import { lotAddress, runAddress, specimenAddress } from '../../parts/addresses.js';
import { Listing } from '../../parts/listing.js';
import { Table } from '../../parts/table.js';

/** Every wheel and rim that was received, and whether it can still be run. */
export function SpecimensPage() {
  return (
    <Listing title="Specimens" things="specimens" list={useInfiniteQuery(specimensQuery)}>
      {(specimens) => (
        <Table<SpecimenRecord>
          caption="Specimens, last received first"
          columns={[
            { head: 'Specimen', cell: ({ key }) => <Link to={specimenAddress(key)}>{key}</Link> },
            { head: 'Lot', cell: ({ content: { lot } }) => <Link to={lotAddress(lot)}>{lot}</Link> },
            { head: 'Serial', cell: ({ content }) => <bdi className="whole">{content.serial ?? 'none'}</bdi> },
            { head: 'Origin', cell: ({ content: { origin } }) => origin },
            { head: 'State', cell: (one) => <SpecimenState of={one} /> },
          ]}
          rows={specimens}
          rowKey={({ key }) => key}
          empty="No specimen was received yet. They are received with the lot they are drawn from."
        />
      )}
    </Listing>
  );
}

/** In which state a specimen is, and what its runs left of it. */
export function SpecimenState({ of: { state, destroyedIn, stressedIn, holds, content } }: { of: SpecimenRecord }) {
  const run = (key: string) => <Link to={runAddress(content.lot, key)}>{key}</Link>;
  if (destroyedIn !== undefined)
    return (
      <>
        destroyed in run {run(destroyedIn)}
        {state === 'retained' && ', its pieces retained'}
        {state === 'disposed' && ', its pieces disposed of'}
        {holds && `, on legal hold ${holds.join(', ')}`}
      </>
    );
  return (
    <>
      {state === 'received' ? (holds ? 'received' : 'received, can be run') : state}
      {holds && `, on legal hold ${holds.join(', ')}`}
      {stressedIn?.map((key, index) => (
        <span key={key}>
          {index === 0 ? '; stressed, survived run ' : ', '}
          {run(key)}
        </span>
      ))}
    </>
  );
}
