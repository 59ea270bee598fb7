import { SPECIMEN_STATES } from '@breakbook/lab';
import { useQuery } from '@tanstack/react-query';
import { Link, useParams } from 'react-router';
import type { RunInList, SpecimenRecord } from '../../client/answers.js';
import { labQuery, peopleQuery, runsOfQuery, specimenQuery } from '../../client/queries.js';
import { logRunAddress, lotAddress } from '../../parts/addresses.js';
import { moment } from '../../parts/moment.js';
import { RunTable } from '../../parts/run-table.js';
import { HeadStrip, Section, Sheet } from '../../parts/sheet/sheet.js';
import { Reading, Trouble } from '../../parts/trouble.js';
import { usePrint } from '../../parts/units/reader.js';
import { Who } from '../../parts/who.js';
import { ComparisonsOfItem } from '../comparisons/compared-sections.js';
import { CustodySection } from '../custody/custody-section.js';
import { ProtectedNotesSection } from '../custody/protected-notes-section.js';
import { SpecimenKeepingSection } from '../keeping/specimen-keeping-section.js';
import { MakeSheet } from '../lots/make-sheet.js';
import { useMe } from '../people/me.js';
import { SpecimenState } from './specimens-page.js';
import { StatesSection } from './states-section.js';

/** One wheel or rim: where it is from, what was done with it, whether it can still be run. */
export function SpecimenPage() {
  const { specimen: key = '' } = useParams();
  const specimen = useQuery(specimenQuery(key));
  const runs = useQuery(runsOfQuery('specimen', key));
  const error = specimen.error ?? runs.error;
  return (
    <Sheet title={`Specimen ${key}`}>
      {specimen.data && runs.data ? (
        <SpecimenSheet specimen={specimen.data} runs={runs.data} />
      ) : error ? (
        <Trouble
          error={error}
          onAgain={() => {
            void specimen.refetch();
            void runs.refetch();
          }}
        />
      ) : (
        <Reading what={`specimen ${key}`} />
      )}
    </Sheet>
  );
}

function SpecimenSheet({ specimen, runs }: { specimen: SpecimenRecord; runs: readonly RunInList[] }) {
  const { duties } = useMe();
  const { declared } = usePrint();
  const { data: people = [] } = useQuery(peopleQuery);
  const { data: lab } = useQuery(labQuery);
  const zone = lab?.zone ?? 'UTC';
  const { key, content, destroyedIn, at, by, version } = specimen;
  const open = runs.filter(({ validity }) => validity === 'not decided');
  return (
    <>
      <HeadStrip
        noun="Specimen"
        name={key}
        of={
          <>
            of lot <Link to={lotAddress(content.lot)}>{content.lot}</Link>
          </>
        }
        sentence={
          <>
            It is <SpecimenState of={specimen} />.
          </>
        }
        next={
          destroyedIn === undefined
            ? nextOf(specimen)
            : open.length > 0
              ? `the validity of run ${open.map(({ run }) => run).join(', ')} is to be decided by somebody who did not record it.`
              : 'nothing: its run is recorded and decided.'
        }
        actions={
          SPECIMEN_STATES.allows['make a run with it'].includes(specimen.state) &&
          specimen.holds === undefined &&
          duties.includes('record') && (
            <Link className="action main" to={logRunAddress(key)}>
              Log a run
            </Link>
          )
        }
        facts={[
          { term: 'Serial', says: <bdi>{content.serial ?? `none: ${content.noSerialReason}`}</bdi> },
          { term: 'Origin', says: content.origin },
          { term: 'Received', says: moment(content.receivedAt, zone) },
          { term: 'Condition', says: content.condition },
          ...(content.mass ? [{ term: 'Mass', says: declared(content.mass.value, content.mass.unit) }] : []),
        ]}
      />
      <Section question="What was done with it?" word="Runs" aside={`Times are those of ${zone.replaceAll('_', ' ')}.`}>
        <RunTable runs={runs} people={people} zone={zone} empty="No run was logged against it yet." />
      </Section>
      <StatesSection specimen={key} people={people} zone={zone} />
      <ComparisonsOfItem specimen={key} zone={zone} />
      <CustodySection specimen={key} people={people} zone={zone} />
      <ProtectedNotesSection specimen={key} people={people} zone={zone} />
      <SpecimenKeepingSection specimen={key} />
      <MakeSheet of="specimen" name={key} zone={zone} />
      <Section question="Who said so, and when?" word="History">
        <p>
          {version === 1 ? 'Received' : `Version ${version} written`} by <Who people={people} person={by} />,{' '}
          {moment(at, zone)}.{specimen.reason !== undefined && ` Reason: ${specimen.reason}`}
        </p>
      </Section>
    </>
  );
}

function nextOf({ state, stressedIn, holds }: SpecimenRecord): string {
  if (state === 'disposed') return 'nothing: it was disposed of.';
  if (holds !== undefined) return `nothing while legal hold ${holds.join(', ')} stands.`;
  if (state === 'retained') return 'nothing, until it is taken out.';
  return stressedIn === undefined
    ? 'a run is logged against it.'
    : 'a run under a line of the plan that takes survivors, if the plan has one.';
}
