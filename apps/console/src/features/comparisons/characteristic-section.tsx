import type { ComparisonInput } from '@breakbook/figures';
import {
  type CharacteristicComparison,
  type ComparedValue,
  isNotEvaluated,
  type LeftOut,
  type NotEvaluated,
  toolInWords,
} from '@breakbook/lab';
import { printDeclared, printPercent, printSignificant } from '@breakbook/units';
import { Link } from 'react-router';
import { runAddress } from '../../parts/addresses.js';
import { ComparisonFigure } from '../../parts/figures/lab-figures.js';
import { type Fact, Facts, Fold, Section } from '../../parts/sheet/sheet.js';
import { Steps } from '../../parts/steps.js';
import { Table } from '../../parts/table.js';
import { usePrint } from '../../parts/units/reader.js';
import { ItemFindings } from './item-findings.js';
import { Level } from './level.js';
import { SpecimenLink } from './specimen-link.js';

interface CharacteristicSectionProps {
  of: CharacteristicComparison;
  figure: ComparisonInput | undefined;
  /** How both sides are called. */
  sides: { known: string; items: string };
  power: number;
}

/** One declared characteristic: what was found, the figure, the numbers, every value, and how it was reckoned. */
export function CharacteristicSection({ of, figure, sides, power }: CharacteristicSectionProps) {
  const { tell } = usePrint();
  const facts = useFacts(of, power);
  const { title, unit, tool, sentence, finding, modes, leftOut, steps, each } = of;
  return (
    <Section
      question={`Do they agree in ${lower(title)}?`}
      word={title}
      aside={`Declared: ${toolInWords(tool, unit)}.`}
    >
      <p>
        <Level of={finding} />
      </p>
      <p>{tell(sentence)}</p>
      {figure && <ComparisonFigure of={figure} />}
      <Facts of={facts} />
      {modes && (
        <Table<NonNullable<CharacteristicComparison['modes']>[number]>
          caption={`${title}: how often each mode was found`}
          columns={[
            { head: 'Mode', cell: ({ mode }) => mode },
            { head: sides.known, number: true, cell: ({ reference }) => reference },
            { head: sides.items, number: true, cell: ({ items }) => items },
          ]}
          rows={modes}
          rowKey={({ mode }) => mode}
          empty="No mode was found."
        />
      )}
      {each.length > 0 && <ItemFindings caption={`${title}: item by item`} items={each} />}
      <Fold word="Every value">
        <ValuesTable of={of} sides={sides} />
      </Fold>
      {leftOut.length > 0 && (
        <Table<LeftOut[]>
          caption={`${title}: gave no value`}
          columns={[
            { head: 'Because', cell: ([one]) => one && tell(one.because) },
            { head: 'Specimens', wide: true, cell: (all) => <LeftOutSpecimens of={all} /> },
          ]}
          rows={byReason(leftOut)}
          rowKey={([one]) => one?.because ?? ''}
          empty=""
        />
      )}
      <Fold word="How this was reckoned">
        <Steps steps={steps} unit={unit ?? '1'} quantities={numbersIn(of)} />
      </Fold>
    </Section>
  );
}

/** Of a reference that takes one test each, many give no value for one and the same reason. */
function byReason(leftOut: readonly LeftOut[]): LeftOut[][] {
  const reasons = [...new Set(leftOut.map(({ because }) => because))];
  return reasons.map((because) => leftOut.filter((one) => one.because === because));
}

function LeftOutSpecimens({ of }: { of: readonly LeftOut[] }) {
  return of.map(({ specimen, run }, index) => (
    <span key={`${specimen} ${run}`}>
      {index > 0 && ', '}
      <SpecimenLink of={specimen} />
      {run !== undefined && `, run ${run}`}
    </span>
  ));
}

function ValuesTable({
  of: { title, reference, items, unit = '1', modes },
  sides,
}: Pick<CharacteristicSectionProps, 'of' | 'sides'>) {
  const { amount, uncertainty: printU, symbol } = usePrint();
  const rows = [
    ...items.map((one) => ({ side: sides.items, ...one })),
    ...reference.map((one) => ({ side: sides.known, ...one })),
  ];
  return (
    <Table<ComparedValue & { side: string }>
      caption={`${title}: every value that was compared, and where it is from`}
      columns={[
        { head: 'Specimen', cell: ({ specimen }) => <SpecimenLink of={specimen} /> },
        { head: 'Of', cell: ({ side }) => <bdi>{side}</bdi> },
        { head: 'Lot', cell: ({ lot }) => lot },
        ...(modes
          ? [{ head: 'Mode', cell: ({ mode }: ComparedValue) => mode ?? 'none' }]
          : [
              { head: 'Value', number: true, cell: ({ value }: ComparedValue) => amount(value, unit) },
              {
                head: 'U',
                number: true,
                cell: ({ uncertainty }: ComparedValue) =>
                  uncertainty
                    ? `${printU(uncertainty.expanded, unit)} ${symbol(unit)}, k = ${uncertainty.k}`
                    : 'none stated',
              },
            ]),
        {
          head: 'From',
          cell: ({ lot, run }) =>
            run === undefined ? 'examination' : <Link to={runAddress(lot, run)}>run {run}</Link>,
        },
      ]}
      rows={rows}
      rowKey={({ specimen, run }) => `${specimen} ${run}`}
      empty="No value was there to compare."
    />
  );
}

function useFacts(of: CharacteristicComparison, power: number): Fact[] {
  const { quantity, uncertainty, symbol, tell } = usePrint();
  const {
    unit = '1',
    reference,
    items,
    lots,
    p,
    pError,
    level,
    bounds,
    effect,
    smallestDifference,
    likelihoodRatio,
  } = of;
  const orWhy = <T,>(answer: T | NotEvaluated, say: (value: T) => string) =>
    isNotEvaluated(answer) ? `not evaluated: ${tell(answer.notEvaluated.because)}` : say(answer);
  const beside = items.flatMap(({ value }) => (value.kind === 'between' ? [value.lower, value.upper] : [value.value]));
  const difference = (value: number) => quantity(value, unit, { signed: true });
  return [
    {
      term: 'Compared',
      says: `${items.length} with ${reference.length} of ${lots} ${lots === 1 ? 'lot' : 'lots'}`,
    },
    {
      term: 'p',
      says: `${orWhy(p, chance)}${pError === undefined || !(pError >= LEAST_TOLD) ? '' : `, standard error ${printSignificant(pError, 2)}`}`,
    },
    { term: 'Held to the level', says: `${printDeclared(Number(level.toPrecision(4)))}, after correction` },
    ...(['lower', 'upper'] as const).flatMap((side): Fact[] => {
      const bound = bounds?.[side];
      if (bound === undefined) return [];
      return [
        {
          term: side === 'lower' ? 'Lower bound' : 'Upper bound',
          says: orWhy(bound, (one) => quantity(one, unit, { limits: beside })),
        },
      ];
    }),
    ...(effect
      ? [
          {
            term: 'Difference',
            says: `${difference(effect.difference)}${orWhy(effect.limits, ([from, to]) => `, limits ${difference(from)} to ${difference(to)}`)}`,
          },
        ]
      : []),
    ...(smallestDifference === undefined
      ? []
      : [
          {
            term: `Smallest difference found with a chance of ${printPercent(power)}`,
            says: orWhy(smallestDifference, (one) => `${uncertainty(one, unit)} ${symbol(unit)}`),
          },
        ]),
    ...(likelihoodRatio === undefined
      ? []
      : [{ term: 'Likelihood ratio', says: orWhy(likelihoodRatio, ({ sentence }) => tell(sentence)) }]),
  ];
}

/** Smaller chances are told as smaller than this. */
const LEAST_TOLD = 1e-4;

function chance(p: number): string {
  return p < LEAST_TOLD ? 'less than 0.0001' : printSignificant(p, 2);
}

/** Numbers of this characteristic that are in its unit. */
function numbersIn({ reference, items, bounds, effect, smallestDifference }: CharacteristicComparison): number[] {
  const values = [...reference, ...items].flatMap(({ value }) =>
    value.kind === 'between' ? [value.lower, value.upper] : [value.value],
  );
  const others = [bounds?.lower, bounds?.upper, effect?.difference, smallestDifference];
  return [...values, ...others.filter((one) => typeof one === 'number')];
}

/** A title inside a question: "Burst pressure" begins small, "U of X" stays. */
function lower(title: string): string {
  return /^[A-Z][a-z]/.test(title) ? `${title.charAt(0).toLowerCase()}${title.slice(1)}` : title;
}
