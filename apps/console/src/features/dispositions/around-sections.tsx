import { boundsInWords, limitName } from '@breakbook/lab';
import { useQuery } from '@tanstack/react-query';
import { Link } from 'react-router';
import type { SheetToSign } from '../../client/answers.js';
import { peopleQuery } from '../../client/queries.js';
import { nonconformityAddress, safetyFlagAddress } from '../../parts/addresses.js';
import { day } from '../../parts/moment.js';
import { Section } from '../../parts/sheet/sheet.js';
import { Table } from '../../parts/table.js';
import { usePrint } from '../../parts/units/reader.js';
import { Who } from '../../parts/who.js';

/** What the evaluation says beside its outcome, what does not meet a requirement, what leave was asked for. */
export function AroundSections({ sheet }: { sheet: SheetToSign['sheet'] }) {
  const { data: people = [] } = useQuery(peopleQuery);
  const { tell } = usePrint();
  return (
    <>
      {sheet.evaluation && (
        <Section question="What does the evaluation say?" word="Evaluation">
          <Table
            caption={`Criteria of plan ${sheet.plan.plan} rev. ${sheet.plan.revision}, as evaluation ${sheet.evaluation.number} found them`}
            columns={[
              { head: 'Criterion', cell: ({ criterion }) => criterion },
              { head: 'Line', cell: ({ line }) => line },
              { head: 'Claims', wide: true, cell: ({ statement }) => tell(statement) },
              { head: 'Outcome', cell: ({ outcome }) => outcome },
            ]}
            rows={sheet.evaluation.criteria}
            rowKey={({ line, criterion }) => `${line} ${criterion}`}
            empty="The plan has no criterion."
          />
          {sheet.evaluation.notes.length > 0 && (
            <ul className="notes">
              {sheet.evaluation.notes.map((note) => (
                <li key={note}>{tell(note)}</li>
              ))}
            </ul>
          )}
        </Section>
      )}
      <Section question="What does not meet a requirement?" word="Nonconformities">
        <Table
          caption="Nonconformities that concern this lot, open and closed"
          columns={[
            { head: 'No.', cell: ({ number }) => <Link to={nonconformityAddress(number)}>{number}</Link> },
            { head: 'What', wide: true, cell: ({ title }) => <bdi>{title}</bdi> },
            { head: 'Opened by', cell: ({ source }) => source },
            { head: 'State', cell: ({ state }) => state },
            { head: 'Due', cell: ({ due }) => (due === undefined ? 'not set' : day(due)) },
          ]}
          rows={sheet.nonconformities}
          rowKey={({ number }) => `${number}`}
          empty="None is recorded."
        />
      </Section>
      {(sheet.safetyFlags ?? []).length > 0 && (
        <Section question="Does anything of it endanger riders?" word="Safety flags">
          <Table
            caption="Safety flags on this lot, open and closed"
            columns={[
              { head: 'No.', cell: ({ number }) => <Link to={safetyFlagAddress(number)}>{number}</Link> },
              { head: 'What', wide: true, cell: ({ title }) => <bdi>{title}</bdi> },
              { head: 'State', cell: ({ state }) => state },
              { head: 'Decision', wide: true, cell: ({ decision }) => <bdi>{decision ?? 'not decided'}</bdi> },
            ]}
            rows={sheet.safetyFlags ?? []}
            rowKey={({ number }) => `${number}`}
            empty="None."
          />
        </Section>
      )}
      {(sheet.opinions ?? []).length > 0 && (
        <Section question="What do people make of it?" word="Opinions" aside="Opinions are no results.">
          {(sheet.opinions ?? []).map(({ number, run, text, basis, name, role }) => (
            <p key={number}>
              Opinion {number}
              {run !== undefined && ` on run ${run}`}: <bdi>{text}</bdi> Basis: <bdi>{basis}</bdi> Given by{' '}
              <bdi>{name}</bdi>, <bdi>{role}</bdi>.
            </p>
          ))}
        </Section>
      )}
      {((sheet.legalHolds ?? []).length > 0 || sheet.keeping) && (
        <Section question="How long is it kept?" word="Keeping">
          {sheet.keeping && (
            <p>
              Records until {day(sheet.keeping.recordsUntil)}, remnants until {day(sheet.keeping.remnantsUntil)}.
            </p>
          )}
          {(sheet.legalHolds ?? []).map(({ number, reference }) => (
            <p key={number}>
              On legal hold {number} (<bdi>{reference}</bdi>): nothing it covers is run or disposed of.
            </p>
          ))}
        </Section>
      )}
      <Section question="What leave to depart was asked for?" word="Concessions">
        <Table
          caption="Concessions and deviation permits for this lot"
          columns={[
            { head: 'No.', cell: ({ number }) => <Link to="/concessions">{number}</Link> },
            { head: 'Kind', cell: ({ kind }) => kind },
            { head: 'State', cell: ({ state, expired }) => (expired ? 'granted, and over' : state) },
            { head: 'Limit', cell: ({ limit }) => (limit ? limitName(limit) : 'none') },
            { head: 'Departs', wide: true, cell: ({ departure }) => <bdi>{departure}</bdi> },
            { head: 'Reaches', cell: ({ bounds }) => boundsInWords(bounds) },
            { head: 'Until', cell: ({ until }) => day(until) },
            { head: 'Risk', wide: true, cell: ({ risk }) => <bdi>{risk}</bdi> },
            {
              head: 'Asked for by',
              wide: true,
              cell: ({ requestedBy }) => <Who people={people} person={requestedBy} />,
            },
          ]}
          rows={sheet.concessions}
          rowKey={({ number }) => `${number}`}
          empty="None was asked for."
        />
      </Section>
    </>
  );
}
