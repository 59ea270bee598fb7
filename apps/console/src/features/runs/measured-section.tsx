import { type Characteristic, isNotEvaluated, type Measurement } from '@breakbook/lab';
import { asSentence } from '../../parts/capital.js';
import { inWords } from '../../parts/in-words.js';
import { Outcome } from '../../parts/marks/outcome.js';
import { moment } from '../../parts/moment.js';
import { Facts, Fold, Section } from '../../parts/sheet/sheet.js';
import { Steps } from '../../parts/steps.js';
import { Table } from '../../parts/table.js';
import { usePrint } from '../../parts/units/reader.js';
import { Who } from '../../parts/who.js';
import './measured-section.css';
import type { RunOnSheet } from './use-run-sheet.js';

/** What was measured: each characteristic with its uncertainty and how it was computed, then what was keyed by hand. */
export function MeasuredSection({ answer: { run, reading }, around }: RunOnSheet) {
  const { declared } = usePrint();
  return (
    <Section
      question="What was measured?"
      word="Measured"
      aside="As the record has it, before the examination and before any limit. U is the expanded uncertainty."
    >
      {reading.characteristics.length > 0 ? (
        <CharacteristicList of={reading.characteristics} />
      ) : (
        <p className="quiet">No characteristic could be computed from this run.</p>
      )}
      {(reading.passages ?? []).map(({ passage, title, characteristics }) => (
        <div key={passage}>
          <h3>
            Passage {passage}: {title}
          </h3>
          <CharacteristicList of={characteristics} />
        </div>
      ))}
      {run.measurements.length > 0 && (
        <Table<Measurement>
          caption="Keyed by a person from an instrument"
          columns={[
            {
              head: 'Of',
              cell: ({ of, passage }) => (passage === undefined ? inWords(of) : `${inWords(of)}, passage ${passage}`),
            },
            { head: 'Value', number: true, cell: ({ quantity: { value, unit } }) => declared(value, unit) },
            { head: 'Place', wide: true, cell: ({ place }) => place ?? 'not given' },
            { head: 'Instrument', wide: true, cell: ({ instrument }) => instrument },
            {
              head: 'Whose value',
              wide: true,
              cell: ({ givenBy }) =>
                givenBy === undefined ? (
                  'this lab’s'
                ) : (
                  <strong>given by the {givenBy}, not measured by this lab</strong>
                ),
            },
            { head: 'By', wide: true, cell: ({ person }) => <Who people={around.people} person={person} /> },
            { head: 'At', cell: ({ at }) => <span className="whole">{moment(at, around.lab.zone)}</span> },
          ]}
          rows={run.measurements}
          rowKey={({ of, place, passage, at }) => `${of} ${passage} ${place} ${at}`}
          empty="Nothing was keyed."
        />
      )}
    </Section>
  );
}

function CharacteristicList({ of }: { of: readonly Characteristic[] }) {
  return (
    <ul className="characteristics">
      {of.map((one) => (
        <li key={one.characteristic}>
          <CharacteristicItem characteristic={one} />
        </li>
      ))}
    </ul>
  );
}

function CharacteristicItem({ characteristic }: { characteristic: Characteristic }) {
  const print = usePrint();
  const { title, unit, reference, value, uncertainty, steps, source, caution } = characteristic;
  const U = uncertainty?.expanded;
  const quantities = isNotEvaluated(value) || value.kind === 'between' ? [] : [value.value];
  return (
    <>
      <p className="measured">
        <span className="title">
          {title}
          {reference !== undefined && ` (${reference})`}
        </span>
        {isNotEvaluated(value) ? (
          <Outcome word="not evaluated" />
        ) : (
          <span className="value">
            {print.value(value, unit, U === undefined ? {} : { uncertainty: U })}
            {U !== undefined && ` ± ${print.uncertainty(U, unit)}`} {print.symbol(unit)}
          </span>
        )}
      </p>
      {isNotEvaluated(value) && (
        <p>
          {asSentence(print.tell(value.notEvaluated.because))} Possible if {print.tell(value.notEvaluated.possibleIf)}.
        </p>
      )}
      {caution !== undefined && <p>{asSentence(print.tell(caution))}</p>}
      <Fold word={source === 'keyed' ? 'Where it comes from' : 'How it was computed'}>
        <Steps steps={steps} unit={unit} quantities={U === undefined ? quantities : [...quantities, U]} />
        {uncertainty ? (
          <>
            <p className="small quiet">
              U = {print.uncertainty(uncertainty.expanded, unit)} {print.symbol(unit)} (k = {uncertainty.k}), from these
              standard uncertainties:
            </p>
            <Facts
              of={uncertainty.components.map(({ name, u }) => ({
                term: name,
                says: `${print.uncertainty(u, unit)} ${print.symbol(unit)}`,
              }))}
            />
          </>
        ) : (
          <p className="small quiet">The method states no uncertainty for it.</p>
        )}
      </Fold>
    </>
  );
}
