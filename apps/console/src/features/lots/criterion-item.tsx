import { type CriterionResult, isNotEvaluated, limitName } from '@breakbook/lab';
import { capital } from '../../parts/capital.js';
import { Outcome } from '../../parts/marks/outcome.js';
import { type Fact, Facts, Fold } from '../../parts/sheet/sheet.js';
import { Steps } from '../../parts/steps.js';
import { usePrint } from '../../parts/units/reader.js';
import './criterion-item.css';

/** One acceptance criterion: its outcome, what it claims, why, the bound against its limit, and how it was computed. */
export function CriterionItem({ criterion }: { criterion: CriterionResult }) {
  const { tell } = usePrint();
  const facts = useBoundFacts(criterion);
  const { bound, boundAllModes, limitValue, unit } = criterion;
  const quantities = [
    limitValue,
    ...(bound ? [bound.value, bound.estimate, bound.value - limitValue] : []),
    ...(boundAllModes && !isNotEvaluated(boundAllModes) ? [boundAllModes.value] : []),
  ];
  return (
    <article className="criterion">
      <h3>
        <span className="key">{criterion.criterion}</span> <Outcome word={criterion.outcome} />
      </h3>
      <p>{tell(criterion.statement)}</p>
      {criterion.because !== undefined && <p>{capital(tell(criterion.because))}.</p>}
      {criterion.possibleIf !== undefined && <p>Possible if {tell(criterion.possibleIf)}.</p>}
      {facts.length > 0 && <Facts of={facts} />}
      {criterion.pooled?.sentence !== undefined && <p>{tell(criterion.pooled.sentence)}</p>}
      <Fold word="How this was decided">
        <Steps steps={criterion.steps} unit={unit} quantities={quantities} />
      </Fold>
    </article>
  );
}

function useBoundFacts(criterion: CriterionResult): Fact[] {
  const { quantity, declared, tell } = usePrint();
  const { bound, boundAllModes, limitValue, unit, external } = criterion;
  if (!bound) return [];
  const limits = [limitValue];
  return [
    {
      term: 'Lower bound',
      says: <strong>{quantity(bound.value, unit, { limits, bound: true })}</strong>,
    },
    {
      term: `${external ? 'External' : 'Internal'} limit, ${limitName(criterion.limit)}`,
      says: declared(limitValue, unit),
    },
    {
      term: 'Difference',
      says: quantity(bound.value - limitValue, unit, { signed: true, bound: true, asFineAs: bound.value, limits }),
    },
    { term: 'Best estimate', says: quantity(bound.estimate, unit, { limits }) },
    ...(boundAllModes
      ? [
          {
            term: 'Bound if every mode counted as a failure',
            says: isNotEvaluated(boundAllModes)
              ? `not evaluated: ${tell(boundAllModes.notEvaluated.because)}`
              : quantity(boundAllModes.value, unit, { limits, bound: true }),
          },
        ]
      : []),
    { term: 'Technique', says: bound.technique },
  ];
}
