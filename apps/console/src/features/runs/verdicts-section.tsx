import { ILAC_WORDS, limitName, type Verdict } from '@breakbook/lab';
import { Outcome } from '../../parts/marks/outcome.js';
import { Section } from '../../parts/sheet/sheet.js';
import { usePrint } from '../../parts/units/reader.js';
import { type RunOnSheet } from './use-run-sheet.js';
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
  const { tell, quantity } = usePrint();
  const { limit, outcome, external, sentence, margin, unit, uncertainty, possibleIf } = verdict;
  const fineness = uncertainty ? { uncertainty: uncertainty.expanded } : {};
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
      {margin !== undefined && (
        <p>Margin to the limit: {quantity(margin, unit, { ...fineness, signed: true, limits: [0] })}.</p>
      )}
      {possibleIf !== undefined && <p>Possible if {tell(possibleIf)}.</p>}
    </>
  );
}
