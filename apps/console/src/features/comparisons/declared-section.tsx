import { type DeclaredCharacteristic, type Feature, type Person, toolInWords } from '@breakbook/lab';
import { printDeclared, printPercent, unitSymbol } from '@breakbook/units';
import type { ComparisonRecord } from '../../client/answers.js';
import { type Fact, Facts, Section } from '../../parts/sheet/sheet.js';
import { Table } from '../../parts/table.js';
import { Who } from '../../parts/who.js';
import { sourceInWords } from './in-words.js';

/** What is compared, by which tool and how surely, as it was written down before testing. */
export function DeclaredSection({ of: { content }, people }: { of: ComparisonRecord; people: readonly Person[] }) {
  const { characteristics, features, confidence, correction, power, blind, alternative, seed } = content;
  const facts: Fact[] = [
    { term: 'Confidence, of all together', says: printPercent(confidence) },
    { term: 'Correction', says: correction },
    { term: 'Power told', says: printPercent(power) },
    { term: 'Remnants may go to court', says: content.mayGoToCourt ? 'yes' : 'no' },
    {
      term: 'Blind',
      says: blind ? (
        <>
          <Names people={people} of={blind.blinded} />; <Who people={people} person={blind.listKeptBy} /> keeps the list
        </>
      ) : (
        'nobody'
      ),
    },
    ...(alternative
      ? [
          {
            term: 'Other making, known by units',
            says: (
              <>
                <bdi>{alternative.statement}</bdi> ({alternative.reference.reference} rev.{' '}
                {alternative.reference.revision})
              </>
            ),
          },
        ]
      : []),
    { term: 'Seed of simulated levels', says: seed },
  ];
  return (
    <Section
      question="What is compared, and how surely?"
      word="Declared"
      aside="Written down before testing. Whatever each came to is told; none is left out."
    >
      <Table<DeclaredCharacteristic>
        caption="Declared characteristics"
        columns={[
          { head: 'Characteristic', cell: ({ title }) => <bdi>{title}</bdi> },
          { head: 'From', wide: true, cell: ({ source }) => sourceInWords(source, features) },
          { head: 'By', wide: true, cell: ({ tool, unit }) => toolInWords(tool, unit) },
          {
            head: 'A difference that matters',
            cell: ({ differenceThatMatters, unit }) =>
              differenceThatMatters === undefined ? 'none named' : withUnit(differenceThatMatters, unit),
          },
          {
            head: 'Between rigs',
            wide: true,
            cell: ({ betweenRigs, unit }) =>
              betweenRigs === undefined ? (
                'nothing added'
              ) : (
                <>
                  u = {withUnit(betweenRigs.u, unit)}: <bdi>{betweenRigs.from}</bdi>
                </>
              ),
          },
        ]}
        rows={characteristics}
        rowKey={({ name }) => name}
        empty=""
      />
      {features.length > 0 && (
        <Table<Feature>
          caption="Declared features, in the order in which they are looked at"
          columns={[
            { head: 'Feature', cell: ({ title }) => <bdi>{title}</bdi> },
            { head: 'Kind', cell: ({ kind }) => kind },
            { head: 'How it is read', wide: true, cell: ({ howRead }) => <bdi>{howRead}</bdi> },
            { head: 'Changes the item', cell: ({ changesItem }) => (changesItem ? 'yes' : 'no') },
          ]}
          rows={features}
          rowKey={({ feature }) => feature}
          empty=""
        />
      )}
      <Facts of={facts} />
    </Section>
  );
}

function withUnit(value: number, unit: string | undefined): string {
  return `${printDeclared(value)} ${unit === undefined ? '' : unitSymbol(unit)}`.trim();
}

export function Names({ people, of }: { people: readonly Person[]; of: readonly string[] }) {
  return of.map((person, index) => (
    <span key={person}>
      {index > 0 && ', '}
      <Who people={people} person={person} />
    </span>
  ));
}
