import { besideVerdict, ILAC_WORDS, limitName, type Verdict } from '@breakbook/lab';
import { capital } from '../../parts/capital.js';
import { Outcome } from '../../parts/marks/outcome.js';
import { type Fact, Facts, Fold, Section } from '../../parts/sheet/sheet.js';
import { Steps } from '../../parts/steps.js';
import { usePrint } from '../../parts/units/reader.js';
import type { RunOnSheet } from './use-run-sheet.js';
import './verdicts-section.css';

/** Does it conform? Each limit of the plan line with its rule and numbers; nothing of it before validity is decided. */
export function VerdictsSection({ answer: { run, judgement } }: RunOnSheet) {
  const decided = run.validity !== undefined;
  const verdicts = decided ? judgement.verdicts : [];
  return (
    <Section
      question="Does it conform?"
      word="Verdicts"
      aside={decided ? 'Values are compared unrounded. Beside our words stand those of ILAC-G8.' : undefined}
    >
      {!decided && (
        <p>
          Limits and verdicts are shown once the validity of this run is decided, so that nobody decides it by its
          result.
        </p>
      )}
      {decided && verdicts.length === 0 && <p className="quiet">The plan line sets no limit on this run.</p>}
      <ul className="verdicts">
        {verdicts.map((verdict) => (
          <li key={limitName(verdict.limit)}>
            <VerdictItem verdict={verdict} />
          </li>
        ))}
      </ul>
    </Section>
  );
}

function VerdictItem({ verdict }: { verdict: Verdict }) {
  const { tell } = usePrint();
  const facts = useVerdictFacts(verdict);
  const { limit, outcome, external, sentence, possibleIf, steps, unit } = verdict;
  return (
    <>
      <h3>
        <Outcome word={outcome} />
        <span className="quiet">
          {ILAC_WORDS[outcome] !== outcome && `(${ILAC_WORDS[outcome]}) `}
          {external ? 'external' : 'internal'} limit {limitName(limit)}
        </span>
      </h3>
      <p>{tell(sentence)}</p>
      {possibleIf !== undefined && <p>Possible if {tell(possibleIf)}.</p>}
      {facts.length > 0 && <Facts of={facts} />}
      {besideVerdict(verdict).map((one) => (
        <p key={one}>{capital(tell(one))}.</p>
      ))}
      {steps !== undefined && steps.length > 0 && (
        <Fold word="How this was judged">
          <Steps steps={steps} unit={unit} quantities={quantitiesOf(verdict)} />
        </Fold>
      )}
    </>
  );
}

/** Value, U and k, limit, limit moved by the guard band, margin; of signs that were looked for, none of them. */
function useVerdictFacts(verdict: Verdict): Fact[] {
  const { quantity, amount, uncertainty: printed, symbol, declared } = usePrint();
  const { value, uncertainty, unit, limitValue, acceptance, guardBand, margin, inspection } = verdict;
  if (inspection || !value) return [];
  const fineness = uncertainty ? { uncertainty: uncertainty.expanded } : {};
  const range = ({ lower, upper }: Verdict['limitValue'], one: (end: number) => string) =>
    [lower, upper]
      .filter((end) => end !== undefined)
      .map(one)
      .join(' to ');
  // As fine as tells it from the limit and the value; from itself it is told by no number of digits.
  const apart = [limitValue.lower, limitValue.upper, ...(value.kind === 'exact' ? [value.value] : [])].filter(
    (one) => one !== undefined,
  );
  const moved = (end: number) => quantity(end, unit, { ...fineness, limits: apart.filter((one) => one !== end) });
  return [
    { term: 'Value', says: amount(value, unit, { ...fineness, limits: endsOf(verdict) }) },
    {
      term: 'U',
      says: uncertainty
        ? `${printed(uncertainty.expanded, unit)} ${symbol(unit)} (k = ${uncertainty.k})`
        : 'none stated',
    },
    { term: 'Limit', says: range(limitValue, (end) => declared(end, unit)) },
    ...(guardBand > 0 ? [{ term: 'Limit of acceptance', says: range(acceptance, moved) }] : []),
    ...(margin === undefined
      ? []
      : [{ term: 'Margin to the limit', says: quantity(margin, unit, { ...fineness, signed: true, limits: [0] }) }]),
  ];
}

function endsOf({ limitValue, acceptance }: Verdict): number[] {
  return [limitValue.lower, limitValue.upper, acceptance.lower, acceptance.upper].filter((one) => one !== undefined);
}

/** Which numbers of its steps are in its unit. */
function quantitiesOf(verdict: Verdict): number[] {
  const { value, uncertainty, guardBand, margin } = verdict;
  return [
    ...endsOf(verdict),
    ...(value === undefined ? [] : value.kind === 'between' ? [value.lower, value.upper] : [value.value]),
    ...(uncertainty ? [uncertainty.expanded] : []),
    ...(margin === undefined ? [] : [margin]),
    guardBand,
  ];
}
